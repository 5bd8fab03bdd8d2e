/** Prints how each foreign file ends: package, file, outcome, notes, bars, warnings or reason. */
import { readTake } from "../../src/ingest/index.ts";
import { describeProblem, Problem } from "../../src/take/index.ts";
import { ABSENT_PACKAGES, bytesOf, FOREIGN_FILES } from "../outside/foreign-files.ts";

export function report(): void {
  const totals = new Map<string, number>();
  for (const file of FOREIGN_FILES) {
    const { outcome, line } = ending(bytesOf(file), file.name);
    totals.set(outcome, (totals.get(outcome) ?? 0) + 1);
    console.log(`${file.package.padEnd(24)} ${file.name.padEnd(28)} ${outcome.padEnd(8)} ${line}`);
  }
  for (const absent of ABSENT_PACKAGES) console.log(`${absent.padEnd(24)} not on this machine`);
  const summary = [...totals].map(([outcome, files]) => `${files} ${outcome}`).join(", ");
  console.log(`\n${FOREIGN_FILES.length} files: ${summary}`);
}

function ending(bytes: Uint8Array, name: string): { outcome: string; line: string } {
  try {
    const take = readTake(bytes, { name });
    const size = `${String(take.notes.length).padStart(6)} notes ${String(take.bars.length).padStart(4)} bars`;
    const warnings = take.warnings.map(({ message }) => message).join(" ");
    return { outcome: take.warnings.length === 0 ? "exact" : "warned", line: `${size}  ${warnings}` };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { outcome: "refused", line: describeProblem(error) };
  }
}
