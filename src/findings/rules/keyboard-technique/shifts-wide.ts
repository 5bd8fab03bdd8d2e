import { intervalInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

export const shiftsWide: Rule = rule({
  id: "shifts-wide",
  heading: "keyboard technique",
  kind: "notice",
  measure: "median distance of a shift, semitones",
  unit: "semitones",
  threshold: 9,
  reason: "More than a sixth each time; the neighbouring place is a fourth or a fifth away [practice].",
  least: { notes: 32, full: 6, sample: 6 },
  importance: 0.35,
  chance: "fact",
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const { median, count } = facts.account.handFit.shifts;
    if (median === null || count < least.sample || median < threshold) return null;
    const notes = facts.account.placements
      .filter((one) => Math.abs(one.shift ?? 0) >= threshold)
      .map((one) => facts.byId.get(one.firstNote))
      .filter((note) => note !== undefined);
    return {
      observed: median,
      strength: beyond(median, threshold, least.full),
      evidence: ids(notes),
      words: {
        distance: intervalInWords(median),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "The hand travels far, {distance} in a typical shift ({places}). A nearer place of the same chord may do, and leaves more time.",
  ],
  practice: null,
});
