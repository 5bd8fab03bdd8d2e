import type { AccountPhrase } from "../account.ts";
import type { Chart } from "../chart/index.ts";
import type { Alignment } from "../take/index.ts";
import { type LineNote, melodicLine, type PlacedNote, positionAt } from "../take/index.ts";
import { answeredPhrases } from "./answers.ts";
import { type Cut, phraseCuts } from "./cuts.ts";
import { phraseShape } from "./shape.ts";
import { rounded } from "./spread.ts";

/**
 * The phrases of a line, cut where a listener would most likely end one (`cuts.ts`).
 * Every solo note belongs to exactly one phrase.
 *
 * @param solo the line's notes in time order
 * @param cuts where it is cut, when that is known already
 * @returns in time order, "p1", "p2", ...; lengths in bars of the chart, null in rubato
 */
export function findPhrases(
  solo: readonly PlacedNote[],
  chart: Chart,
  alignment: Alignment,
  cuts: readonly Cut[] = phraseEnds(solo, alignment),
): AccountPhrase[] {
  if (solo.length === 0) return [];
  const line = melodicLine(solo);
  const rubato = inRubato(solo);
  const clock = (seconds: number) => positionAt(alignment.map, seconds);
  const barBeats = (chart.meter.beats * 4) / chart.meter.unit;
  const phrases: AccountPhrase[] = [];
  let start = 0;
  for (const cut of [...cuts, { after: line.length - 1, strength: 1, ends: "end" } as Cut]) {
    const steps = line.slice(start, cut.after + 1);
    const first = steps[0]!;
    const last = steps[steps.length - 1]!;
    const next = line[cut.after + 1];
    const end = lastRelease(steps);
    const notes = solo.slice(first.first, last.last + 1);
    const pitches = notes.map((note) => note.pitch);
    const rest = next === undefined ? 0 : Math.max(0, next.onset - end);
    phrases.push({
      id: `p${phrases.length + 1}`,
      firstNote: notes[0]!.id,
      lastNote: notes[notes.length - 1]!.id,
      notes: notes.length,
      chorus: first.note.chorus,
      bar: first.note.bar,
      beat: first.note.beat,
      bars: rubato ? null : rounded((clock(end) - clock(first.onset)) / barBeats, 3),
      seconds: rounded(end - first.onset, 4),
      restSeconds: rounded(rest, 4),
      restBeats: rubato ? null : rest === 0 ? 0 : rounded(clock(next!.onset) - clock(end), 3),
      low: Math.min(...pitches),
      high: Math.max(...pitches),
      shape: phraseShape(steps.map((step) => step.note.pitch)),
      answers: null,
      boundary: rounded(cut.strength, 3),
      ends: cut.ends,
    });
    start = cut.after + 1;
  }
  const answers = answeredPhrases(phrases, solo);
  return phrases.map((phrase) => ({ ...phrase, answers: answers.get(phrase.id) ?? null }));
}

/** Where the phrases of a line end, without the last. */
export function phraseEnds(solo: readonly PlacedNote[], alignment: Pick<Alignment, "map">): Cut[] {
  const beatAt = (seconds: number) => positionAt(alignment.map, seconds);
  return phraseCuts(melodicLine(solo), inRubato(solo) ? null : { beatAt });
}

function inRubato(solo: readonly PlacedNote[]): boolean {
  return solo.some((note) => note.position === null);
}

function lastRelease(steps: readonly LineNote<PlacedNote>[]): number {
  return steps.reduce((end, step) => Math.max(end, step.end), 0);
}
