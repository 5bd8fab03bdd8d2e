/** Bars and beats that a player leaves out or puts in over a click, whose file may state where its bars begin. */
import type { Chart } from "../chart/types.ts";
import { mod } from "../pitch/index.ts";
import type { IrregularBars } from "../take/index.ts";
import { irregularBars } from "./irregular.ts";
import { held } from "./lattice/click-odds.ts";
import type { Evidence } from "./lattice/evidence.ts";
import { onClick } from "./lattice/irregular-bars.ts";
import { besideBars, type FileBars, layOnBeats, type Reading } from "./lattice/lay-line.ts";

/**
 * A reading on a click with the places where the take leaves its form. Who loses a beat plays beside the bars of the file
 * from there on: a reading that lies beside them as a whole gives way to one that begins on them, if a slip tells why.
 *
 * @param times seconds of the click's beats
 * @param fileBars where the file begins its bars; null where it does not say
 */
export function clickSlips(
  evidence: Evidence,
  reading: Reading,
  times: Float64Array,
  fileBars: FileBars | null,
  chart: Chart,
): { readonly reading: Reading; readonly irregular: readonly IrregularBars[] } {
  const { form } = evidence;
  const sought = onClick(form, fileBars === null ? 0 : besideBars(fileBars, form));
  const slipsOf = ({ beats, firstBeat }: Reading) =>
    irregularBars(evidence, times.subarray(times.indexOf(beats[0]!)), firstBeat, chart, sought);
  const column = times.indexOf(reading.beats[0]!);
  if (fileBars !== null && mod(reading.firstBeat - column + fileBars.at, form.bar) !== 0) {
    // The file's bars hold where the take begins, whatever its notes say.
    const begun = layOnBeats(evidence, times, { ...fileBars, share: 1 });
    const irregular = begun === null ? [] : slipsOf(begun);
    if (irregular.length > 0) return { reading: held(begun!, reading.share), irregular };
  }
  return { reading, irregular: slipsOf(reading) };
}
