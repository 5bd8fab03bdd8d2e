import type { AccountPlacement } from "../../../account.ts";
import { degreeName } from "../../../chart/index.ts";
import { fingerName, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";
import { notesOf } from "./placed-notes.ts";

export const onePlacementOnly: Rule = rule({
  id: "one-placement-only",
  heading: "keyboard technique",
  kind: "practise",
  measure: "share of the placed notes that are played from one pitch of the anchor finger",
  unit: "share",
  threshold: 0.7,
  reason: "Seven notes in ten from one place of the hand, over more than one chord [practice].",
  least: { notes: 32, full: 0.3, shown: 32, sample: 24 },
  importance: 0.9,
  chance: "fact",
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const total = facts.account.placements.reduce((sum, one) => sum + one.notes, 0);
    if (total < least.sample) return null;
    const byPlace = new Map<string, AccountPlacement[]>();
    for (const placement of facts.account.placements) {
      const key = `${placement.shape}:${placement.anchorPitch}`;
      byPlace.set(key, [...(byPlace.get(key) ?? []), placement]);
    }
    const count = (list: readonly AccountPlacement[]) => list.reduce((sum, one) => sum + one.notes, 0);
    const favourite = [...byPlace.values()].sort((a, b) => count(b) - count(a))[0]!;
    const share = count(favourite) / total;
    if (share < threshold) return null;
    const other = facts.account.handFit.byChord
      .flatMap((one) => one.unused.map((unused) => ({ ...unused, chord: one.chord })))
      .find(({ shape }) => shape === favourite[0]!.shape);
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(notesOf(facts, favourite).slice(0, least.shown)),
      words: {
        share: shareInWords(share),
        placement: placementInWords(favourite[0]!),
        other: other
          ? `on ${other.chord} the same shape also stands on ${other.anchor}, its ${degreeName(other.anchorDegree)}`
          : "try the next octave first",
      },
    };
  },
  wording: [
    "{share} of the notes come from one place of the hand ({placement}). {other}.",
    "The hand stays where it is: {share} of the notes with {placement}. Keep the fingers as they are and move the whole hand: {other}.",
  ],
  practice: {
    kind: "placements",
    title: "Every place on every chord",
    text: "Chord by chord, first in free time, then with the click: the shape on each of its places.",
  },
});

/** "the index finger on the fifth". */
function placementInWords(placement: Pick<AccountPlacement, "anchorFinger" | "anchorDegree">): string {
  const finger = fingerName(placement.anchorFinger);
  return placement.anchorDegree === null
    ? `the ${finger} in one place`
    : `the ${finger} on the ${degreeName(placement.anchorDegree)}`;
}
