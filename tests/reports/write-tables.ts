/** Tables that a report has counted, as a file of `src`. */
import { writeFileSync } from "node:fs";

export interface CountedTables {
  /** Of the file that is written. */
  readonly file: URL;
  /** What they are and where they come from: lines of a comment. */
  readonly told: readonly string[];
  /** Name of the constant, name of its type, and the file beside it that has the type. */
  readonly name: string;
  readonly type: string;
  readonly from: string;
  readonly tables: unknown;
}

/** Writes them with two places after the point. */
export function writeTables({ file, told, name, type, from, tables }: CountedTables): void {
  const text = JSON.stringify(tables, (_, value) =>
    typeof value === "number" ? Number(value.toFixed(2)) : value,
  );
  const head = `/**\n${told.map((line) => ` * ${line}\n`).join("")} */\n`;
  writeFileSync(
    file,
    `${head}import type { ${type} } from "${from}";\n\nexport const ${name}: ${type} = ${text};\n`,
  );
  console.log("Written; run the formatter");
}
