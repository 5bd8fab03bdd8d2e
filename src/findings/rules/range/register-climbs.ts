import { intervalInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const registerClimbs: Rule = {
  id: "register-climbs",
  heading: "range",
  kind: "works",
  measure: "semitones between the median pitch of the last chorus and of the first",
  threshold: 4,
  reason: "A third higher on the whole is heard as climbing [practice].",
  least: { notes: 40, choruses: 2 },
  importance: 0.45,
  chance: "pitches shuffled",
  find({ account, solo }, threshold) {
    const medians = account.choruses
      .map((one) => one.register.quantiles[2])
      .filter((one) => one !== undefined);
    if (medians.length < 2) return null;
    const climb = medians[medians.length - 1]! - medians[0]!;
    if (climb < threshold) return null;
    return {
      observed: climb,
      strength: beyond(climb, threshold, 8),
      evidence: ids(solo.filter((note) => note.chorus === account.choruses.length).slice(0, 16)),
      words: { climb: intervalInWords(climb) },
    };
  },
  wording: [
    "The line climbs: the last chorus lies {climb} higher than the first, and the energy goes with it.",
  ],
  practice: null,
};
