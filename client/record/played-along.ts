/** What goes along with somebody who plays: where the hand may stand, and in free time bass and shells. */
import { chordSpans } from "../../src/chart/chord-spans.ts";
import type { Chart } from "../../src/chart/types.ts";
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { ApiError, fetchJson } from "../shell/api.ts";
import type { Backing } from "../sound/backing.ts";
import type { Band } from "./band.ts";
import { chordKeys, placeInFree } from "./free-time.ts";

/** Where the hand may stand; null where it is not wanted, or cannot be had without a network. */
export async function placementMap(question: URLSearchParams | null): Promise<PlacementMap | null> {
  if (question === null) return null;
  try {
    return await fetchJson<PlacementMap>(`/placements?${question}`);
  } catch (error) {
    if (error instanceof ApiError && error.code === "unreachable") return null;
    throw error;
  }
}

/** In free time bass and shells come with the player's changes. */
export function strikeChanges(chart: Chart, band: Band, wanted: ReadonlySet<Backing>) {
  const spans = chordSpans(chart);
  return (changes: readonly number[]) => {
    const { span } = placeInFree(changes, spans, chart, changes.at(-1) ?? 0);
    for (const key of chordKeys(span?.chord ?? null, wanted)) band.strike(key, BACKING_VELOCITY);
  };
}

/** As loud as bass and shells are to a click (MIDI velocity). */
const BACKING_VELOCITY = 52;
