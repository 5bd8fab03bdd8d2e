/** Where the form lies in a recording that was played to a click: the page counted in, so nobody has to guess. */
import type { Analysis } from "../../src/account.ts";

type Anchor = Analysis["alignment"]["anchors"][number];

/**
 * The first bar line of the form and the first one after the last note, both exact: two places settle one steady tempo.
 *
 * @param barSeconds length of a bar of the click
 * @param lastOnset seconds from the start of the count-in
 */
export function clickPlaces(
  barSeconds: number,
  countInBars: number,
  chartBars: number,
  lastOnset: number,
): Anchor[] {
  const played = Math.max(1, Math.floor(lastOnset / barSeconds - countInBars) + 1);
  return [0, played].map((bars) => ({
    seconds: Number(((countInBars + bars) * barSeconds).toFixed(6)),
    chorus: Math.floor(bars / chartBars) + 1,
    bar: (bars % chartBars) + 1,
    beat: 1,
  }));
}
