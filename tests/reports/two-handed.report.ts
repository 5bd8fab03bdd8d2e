/**
 * `npm run report -- two-handed`: how well the beats of free playing with both hands are found, with chords read off
 * what sounds and without any, by tables counted in pieces of other composers.
 *
 * `npm run report -- two-handed tables`: counts all pieces into `src/align/free/free-tables.ts`.
 */
import { layFreely } from "../../src/align/free/lay-freely.ts";
import { scoreBeats } from "../align/beat-score.ts";
import { freeTablesFrom } from "../align/count-free.ts";
import { PERFORMANCES_THERE, readTwoHanded } from "../align/two-handed.ts";
import { writeTables } from "./write-tables.ts";

const FILE = new URL("../../src/align/free/free-tables.ts", import.meta.url);

export function report(args: readonly string[]): void {
  if (!PERFORMANCES_THERE) {
    console.log("The performances are not beside the project: skipped");
    return;
  }
  if (args[0] !== "tables") printHeldOut();
  else {
    writeTables({
      file: FILE,
      told: [
        "Counted in pieces that people played with both hands, with known beats, and with chords that were read off what",
        "sounds between them (`npm run report -- two-handed tables`). No piece can be read from them.",
      ],
      name: "FREE_TABLES",
      type: "FreeTables",
      from: "./free-model.ts",
      tables: freeTablesFrom(readTwoHanded()),
    });
  }
}

function printHeldOut(): void {
  const scores: { readonly chords: number; readonly bare: number; readonly oneMeter: boolean }[] = [];
  for (const half of [0, 1] as const) {
    const tables = freeTablesFrom(readTwoHanded(half === 0 ? 1 : 0));
    for (const { id, take, chart, bare, beats, oneMeter } of readTwoHanded(half)) {
      const found = [chart, bare].map(
        (one) => scoreBeats(beats, [...(layFreely(take.notes, one, tables)?.beats ?? [])]).f,
      );
      scores.push({ chords: found[0]!, bare: found[1]!, oneMeter });
      console.log(`${id}: beats F ${found[0]!.toFixed(3)} with chords, ${found[1]!.toFixed(3)} without`);
    }
  }
  for (const [name, rows] of [
    ["all", scores],
    ["of one meter", scores.filter(({ oneMeter }) => oneMeter)],
  ] as const) {
    const mean = (of: (row: (typeof scores)[number]) => number) =>
      (rows.reduce((sum, row) => sum + of(row), 0) / rows.length).toFixed(3);
    console.log(
      `${name} (${rows.length}): beats F ${mean((row) => row.chords)} with chords, ${mean((row) => row.bare)} without`,
    );
  }
}
