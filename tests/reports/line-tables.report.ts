/**
 * `npm run report -- line-tables`: counts the fitted half of the open solos into the tables of the lattice and writes
 * them to `src/align/lattice/line-tables.ts`.
 */
import { writeFileSync } from "node:fs";
import { tablesFrom } from "../align/count-solos.ts";
import { readSolos, SOLOS_THERE } from "../align/human-solos.ts";

const FILE = new URL("../../src/align/lattice/line-tables.ts", import.meta.url);

export function report(): void {
  if (!SOLOS_THERE) {
    console.log("The open solos are not beside the project; the tables were left as they are");
    return;
  }
  const tables = tablesFrom(readSolos(0));
  const text = JSON.stringify(tables, (_, value) =>
    typeof value === "number" ? Number(value.toFixed(2)) : value,
  );
  const head =
    "/**\n * Shares counted in improvised solos by many players (open data; one half of the solos, the other half is\n" +
    " * held out), made by `npm run report -- line-tables`. Logarithms, to two places. No line can be read from them.\n */\n";
  writeFileSync(
    FILE,
    `${head}import type { LineTables } from "./line-model.ts";\n\nexport const LINE_TABLES: LineTables = ${text};\n`,
  );
  console.log("Written; run the formatter");
}
