/** Where in the form takes begin and end before they are heard, as the counted solos do. */
import type { FormBeats } from "./form-beats.ts";
import type { LatticeStart } from "./lattice-types.ts";
import { BEGIN_FROM, BEGIN_TO, END_FROM, END_TO, endRow, type LineTables } from "./line-model.ts";

/** Share of takes that begin and end as the counted solos do; the others begin and end anywhere. */
const AS_COUNTED = 0.999;
const AS_ENDED = 0.7;

/**
 * Log shares of the states in which a take begins, and of those that come after its last beat.
 *
 * @param beats that the take is long, about
 * @param tables of lines, those by which the take is laid
 */
export function startOf(
  { count, lead, states }: FormBeats,
  beats: number,
  tables: LineTables,
): Pick<LatticeStart, "begin" | "end"> {
  const begin = Float64Array.from({ length: states }, (_, p) => {
    const at = p - lead;
    const begun = at >= BEGIN_FROM && at <= BEGIN_TO ? Math.exp(tables.begin[at - BEGIN_FROM]!) : 0;
    return Math.log(AS_COUNTED * begun + (1 - AS_COUNTED) / states);
  });
  const end = Float64Array.from({ length: states }, (_, p) => {
    // The state after the last beat: the form's first beat is reached from its end.
    const row = endRow(beats / count) - END_FROM;
    let ended = 0;
    for (const left of p < lead ? [] : [p - lead, p - lead - count]) {
      if (left >= END_FROM && left <= END_TO) ended += Math.exp(tables.end[row + left]!);
    }
    return Math.log(AS_ENDED * ended * count + (1 - AS_ENDED));
  });
  return { begin, end };
}
