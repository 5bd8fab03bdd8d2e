import { intervalInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { heights } from "./heights.ts";

function climbOf(line: MeasuredLine): number | null {
  const medians = heights(line);
  return medians.length < 2 ? null : medians[medians.length - 1]! - medians[0]!;
}

export const registerClimbs: Rule = rule({
  id: "register-climbs",
  heading: "range",
  kind: "works",
  measure: "semitones between the median pitch of the last chorus and of the first",
  unit: "semitones",
  threshold: 5,
  reason:
    "A fourth higher on the whole is heard as climbing; lines that run up and down the keyboard end up a third apart by themselves [practice].",
  least: { notes: 40, choruses: 2, full: 8, shown: 16 },
  importance: 0.45,
  chance: { null: "pitches shuffled", count: climbOf, than: "more" },
  find(facts, threshold, least) {
    const { account, solo } = facts;
    const medians = heights(facts);
    if (medians.length < 2) return null;
    const climb = medians[medians.length - 1]! - medians[0]!;
    if (climb < threshold) return null;
    return {
      observed: climb,
      strength: beyond(climb, threshold, least.full),
      evidence: ids(solo.filter((note) => note.chorus === account.choruses.length).slice(0, least.shown)),
      words: { climb: intervalInWords(climb) },
    };
  },
  wording: ["The line climbs: on the whole the last chorus lies {climb} higher than the first."],
  practice: null,
});
