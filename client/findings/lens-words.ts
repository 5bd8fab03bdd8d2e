/** What a take shows through its lens, in words: how far it is reached, and each number with its places to hear. */
import type { Analysis, Finding, LensOutcome, LensState } from "../../src/account.ts";

export const LENS_STATE_WORDS: Readonly<Record<LensState, string>> = {
  reached: "Reached",
  partly: "Partly",
  "not yet": "Not yet",
  "cannot be told": "Cannot be told from this take",
};

type Selectable = Pick<Finding, "id" | "evidence" | "bars" | "text" | "practice"> & {
  readonly heading: string;
};

/** Places of one number: where it is heard, and where it was open. */
export interface LensPlaces {
  readonly heard: Selectable;
  readonly open: Selectable;
}

/** Under these ids the notes of the `n`th number (from 1) are selected, as those of a finding are. */
export function lensPlaces({ name, asks }: LensOutcome): readonly LensPlaces[] {
  return asks.map(({ text, evidence, bars, open, openBars }, i) => {
    const said = { heading: name, text, practice: null };
    return {
      heard: { ...said, id: `lens-${i + 1}`, evidence, bars },
      open: { ...said, id: `lens-${i + 1}-open`, evidence: open, bars: openBars },
    };
  });
}

/** All that can be selected as a finding: the findings, and the places of the lens. */
export function selectableFindings({ findings, lens }: Analysis): ReadonlyMap<string, Selectable> {
  const places = lens === undefined ? [] : lensPlaces(lens).flatMap(({ heard, open }) => [heard, open]);
  return new Map([...findings, ...places].map((one) => [one.id, one]));
}

const CHANCE = {
  "pitches drawn": "pitches drawn from the same range",
  "pitches shuffled": "the same pitches in another order",
  "moved in time": "the same notes moved in time",
} as const;

/** How one number was judged; empty for a fact that chance has no part in. */
export function lensJudged({ chance, state }: LensOutcome["asks"][number]): string {
  if (state === "cannot be told") return "";
  if (chance === undefined) return "Counted in the take; it was not weighed against chance.";
  const often = Math.round(chance.p * (chance.draws + 1)) - 1;
  return `Weighed against ${CHANCE[chance.null]}: chance did as well in ${often} of ${chance.draws} draws. It counts as reached where that is so in at most one of 39.`;
}
