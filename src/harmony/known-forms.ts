import { chordSpans, formChart } from "../chart/index.ts";
import type { Chart, ChordSpan } from "../chart/types.ts";

/** A usual form in a key. */
export interface KnownForm {
  readonly chart: Chart;
  readonly spans: () => readonly ChordSpan[];
}

const known = new Map<string, KnownForm>();

/** A usual form in a key: the same for every take, and read for the first that asks. */
export function knownForm(id: string, key: string): KnownForm {
  const name = `${id} ${key}`;
  const found = known.get(name);
  if (found !== undefined) return found;
  const chart = formChart(id, key);
  let spans: readonly ChordSpan[] | null = null;
  const form: KnownForm = { chart, spans: () => (spans ??= chordSpans(chart)) };
  known.set(name, form);
  return form;
}
