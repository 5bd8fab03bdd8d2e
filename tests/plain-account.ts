/** Parts of an account that say nothing, for accounts that tests write by hand. */
import type { Analysis } from "../src/account.ts";

/** An alignment that nobody has corrected and that nothing was to be said of. */
export const UNPINNED = { anchors: [], map: [], warnings: [] } satisfies Partial<Analysis["alignment"]>;

/** A hand of which nothing is said but that it fits. */
export const QUIET_HAND: Analysis["handFit"] = {
  share: 1,
  byShape: {},
  byChorus: [],
  byChord: [],
  shifts: { count: 0, distance: 0, median: null, late: [], common: [] },
  slides: { taken: [], missed: [], possible: 0 },
  moved: [],
  cost: 0,
  alternatives: [],
  stretches: [],
  caution: null,
};
