/**
 * `npm run report -- line-tables`: counts all open solos into the tables of the lattice and writes
 * them to `src/align/lattice/line-tables.ts`.
 */
import { tablesFrom } from "../align/count-solos.ts";
import { readSolos, SOLOS_THERE } from "../align/human-solos.ts";
import { writeTables } from "./write-tables.ts";

const FILE = new URL("../../src/align/lattice/line-tables.ts", import.meta.url);

export function report(): void {
  if (!SOLOS_THERE) {
    console.log("The open solos are not beside the project; the tables were left as they are");
    return;
  }
  writeTables({
    file: FILE,
    told: [
      "Shares counted in improvised solos by many players (open data), made by `npm run report -- line-tables`. What they",
      "promise is counted by tables without the player (`align human`). Logarithms, to two places. No line can be read from",
      "them.",
    ],
    name: "LINE_TABLES",
    type: "LineTables",
    from: "./line-model.ts",
    tables: tablesFrom(readSolos("all")),
  });
}
