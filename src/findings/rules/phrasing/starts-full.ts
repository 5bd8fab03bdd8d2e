import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { fullness, growth } from "./fullness.ts";

export const startsFull: Rule = rule({
  id: "starts-full",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "notes a bar in the last chorus over the first",
  unit: "ratio",
  threshold: 0.74,
  reason: "A third more at the start than at the end is heard as running out [practice].",
  least: { notes: 40, choruses: 2, full: -0.4, shown: 16 },
  importance: 0.5,
  chance: { null: "moved in time", count: growth, than: "less" },
  find(facts, threshold, least) {
    const { solo } = facts;
    const densities = fullness(facts);
    if (densities.length < 2) return null;
    const [first, last] = [densities[0]!, densities[densities.length - 1]!];
    if (first <= 0 || last / first > threshold) return null;
    return {
      observed: last / first,
      strength: beyond(last / first, threshold, least.full),
      evidence: ids(solo.filter((note) => note.chorus === 1).slice(0, least.shown)),
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
});
