/** A player's weeks through their lens: what each take showed, and what may be said of the change. */
import type { LensOutcome } from "../account.ts";
import { lensMeasure, lensValue } from "../lens/names.ts";
import { changeInWords, changeOfValues, changesOf } from "./change.ts";
import type { DatedTake } from "./dated-take.ts";
import type { LensProgress } from "./progress-schema.ts";
import { sampleOf } from "./sample.ts";

/** Numbers of a lens that comparison follows phrase by phrase, under the same name. */
const BY_PHRASES: readonly string[] = ["rests", "answers"];

/** @param row takes on one chart in the order of time; null where none has a lens */
export function lensProgress(row: readonly DatedTake[]): LensProgress | null {
  const lens = row.findLast(({ analysis }) => analysis.lens !== undefined)?.analysis.lens;
  if (lens === undefined) return null;
  const through = row.filter(({ analysis }) => analysis.lens?.lens === lens.lens);
  const byPhrases = lens.asks.some(({ measure }) => BY_PHRASES.includes(measure));
  const sides = through.map(({ title, analysis }) => sampleOf(analysis, { name: title }));
  const changes = byPhrases ? changesOf(sides) : new Map();
  const sentences = lens.asks.map(({ measure, most }) => {
    const { name, unit } = lensMeasure(measure);
    const values = through.map(({ analysis }) => askedValue(analysis.lens!, measure));
    const known = values.filter((value) => value !== null);
    const change = changes.get(BY_PHRASES.includes(measure) ? measure : "") ?? changeOfValues(values);
    return changeInWords(change, {
      name,
      hope: most === null ? "up" : "down",
      ends: known.length < 2 ? null : [lensValue(known[0]!, unit), lensValue(known.at(-1)!, unit)],
      sides: through.map(({ title }) => title),
    }).sentence;
  });
  return { lens: lens.lens, name: lens.name, sentences };
}

function askedValue({ asks }: LensOutcome, measure: string): number | null {
  return asks.find((ask) => ask.measure === measure)?.value ?? null;
}
