/** What a key is to the chord under way, at the moment at which it is pressed. No page is needed for it. */
import type { Chart, ChordSpan, Degree } from "../../src/chart/types.ts";
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { soundingTable } from "../../src/harmony/harmonic-role.ts";
import type { HarmonicRole } from "../../src/harmony/roles.ts";
import { mod12 } from "../../src/pitch/index.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { roleMark } from "../draw/role-marks.ts";

export interface NamedKey {
  readonly pitch: number;
  readonly symbol: string;
  readonly degree: Degree;
  readonly role: HarmonicRole;
  /** Whether a placement of the chord has a finger on it, in some octave; null where no placement is known. */
  readonly placed: boolean | null;
}

/** The chord at a place of the form; `bars` since the first bar line, of whichever chorus. */
export function spanAt(spans: readonly ChordSpan[], chart: Chart, bars: number): ChordSpan | null {
  const { length } = chart.bars;
  // The end of a beat is struck a little early: a key belongs to the chord that it is played for.
  const meant = bars + EARLY / chart.meter.beats;
  const within = ((meant % length) + length) % length;
  const bar = Math.floor(within) + 1;
  const beat = (within % 1) * chart.meter.beats + 1;
  return (
    spans.findLast((one) => one.bar < bar || (one.bar === bar && one.beat <= beat + 1e-6)) ??
    spans.at(-1) ??
    null
  );
}

/** Part of a beat by which a key may come before its chord: an eighth of a beat is 60 ms at 120. [practice] */
const EARLY = 0.125;

export function nameKey(pitch: number, span: ChordSpan, map: PlacementMap | null): NamedKey {
  const { degree, role } = soundingTable(span)[mod12(pitch)]!;
  const placements = map?.chords[span.index]?.placements ?? [];
  const placed =
    placements.length === 0
      ? null
      : placements.some(({ keys }) => keys.some((key) => key.pitchClass === mod12(pitch)));
  return { pitch, symbol: span.symbol, degree, role, placed };
}

/** "♭3 of F7: blue note, in the placement" */
export function nameWords({ symbol, degree, role, placed }: NamedKey): string {
  const of = symbol === "N.C." ? "" : ` of ${withAccidentals(symbol)}`;
  const where = placed === null ? "" : placed ? ", in the placement" : ", out of the placement";
  return `${withAccidentals(degree)}${of}: ${roleMark(role).word}${where}`;
}
