/** A line of three choruses on a click after two bars of count-in, as loosely as one likes, written by arithmetic. */
import { type Chart, formChart } from "../../src/chart/index.ts";
import { seeded } from "./simulator/random.ts";

export const LOOSE_FORM = { form: "blues-basic", key: "F" } as const;
export const LOOSE_CHART: Chart = formChart(LOOSE_FORM.form, LOOSE_FORM.key);
/** Eighths of a bar that are played, and semitones over the chord's root. */
const FIGURES = [
  [0, 4, 7, 9, 10, 9, 7, 4],
  [4, 7, 10, 14, 12, 10, null, null],
  [null, null, 7, 9, 10, 7, 4, 0],
] as const;

/**
 * Keys with their places in quarter notes from the file's beginning, in order.
 *
 * @param loose how far a stroke lies beside its eighth at most, in quarter notes
 */
export function looseLine(loose: number): { readonly pitch: number; readonly place: number }[] {
  const random = seeded(7);
  const bars = Array.from({ length: 3 * LOOSE_CHART.bars.length }, (_, bar) => bar);
  return bars
    .flatMap((bar) => {
      const { chord } = LOOSE_CHART.bars[bar % LOOSE_CHART.bars.length]!.chords[0]!;
      return FIGURES[bar % FIGURES.length]!.flatMap((step, k) =>
        step === null
          ? []
          : [
              {
                pitch: 60 + (chord!.rootClass % 12) + step,
                place: 8 + bar * 4 + k / 2 + random.between(-loose, loose),
              },
            ],
      );
    })
    .sort((a, b) => a.place - b.place);
}
