/** What is to be played, and how. */
import type { Chart } from "../../../src/chart/types.ts";
import type { CompingStyle } from "./comping.ts";

export type Timing = "click" | "steady" | "rubato";

export interface PerformanceSpec {
  readonly seed: number;
  readonly chart: Chart;
  readonly choruses: number;
  /** Quarter notes a minute. */
  readonly tempo: number;
  readonly timing: Timing;
  /** Long over short eighth, 1 to 3. */
  readonly swing: number;
  /** Quarter-note beats of solo before the first bar line. */
  readonly pickup: number;
  readonly tagBars: number;
  readonly comping: CompingStyle;
  /** With a click: whether the file's bars are those that were played to. Otherwise the file says 120 or a chance tempo. */
  readonly fileKnows: boolean;
  /** Hesitations: the music stops and goes on. */
  readonly pauses: number;
  /** Beats lost or added. */
  readonly slips: number;
  /** Lowest and highest pitch of the line, and where the comping hand lies. */
  readonly lineRange: readonly [number, number];
  readonly compingAround: number;
  /** How many times as uneven as the literature's players the hands and the clock are; 1 when left out. */
  readonly unrest?: number;
  /** Bars before the form in which only the comping hand plays: on the first chord, or the form's last bars. */
  readonly intro?: { readonly bars: number; readonly over: "first chord" | "last bars" };
  /** Whole bars of the form that are left out at the beginning. */
  readonly fromBar?: number;
}
