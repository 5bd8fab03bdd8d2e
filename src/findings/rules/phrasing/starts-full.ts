import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const startsFull: Rule = {
  id: "starts-full",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "notes a bar in the first chorus over the last",
  threshold: 1.35,
  reason: "A third more at the start than at the end is heard as running out [practice].",
  least: { notes: 40, choruses: 2 },
  importance: 0.5,
  chance: "moved in time",
  find({ account, solo }, threshold) {
    const densities = account.choruses.filter((one) => one.notes > 0).map((one) => one.density.perBar);
    if (densities.length < 2) return null;
    const [first, last] = [densities[0]!, densities[densities.length - 1]!];
    if (last <= 0 || first / last < threshold) return null;
    return {
      observed: first / last,
      strength: beyond(first / last, threshold, 1),
      evidence: ids(solo.filter((note) => note.chorus === 1).slice(0, 16)),
      words: { first: first.toFixed(1), last: last.toFixed(1) },
    };
  },
  wording: [
    "You begin with {first} notes a bar and end with {last}. Start the first chorus with half of what you know, and you have somewhere to go.",
  ],
  practice: {
    kind: "rests",
    title: "A first chorus of few words",
    text: "One short phrase in every second bar, the rest is silence; the next time round one phrase a bar.",
  },
};
