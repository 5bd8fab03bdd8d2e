import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { fullness, growth } from "./fullness.ts";

export const densityBuilds: Rule = rule({
  id: "density-builds",
  heading: "phrasing and shape",
  kind: "works",
  measure: "notes a bar in the last chorus over the first",
  unit: "ratio",
  threshold: 1.25,
  reason:
    "A quarter more is heard as growth [practice]; the last chorus must also be the fullest or next to it.",
  least: { notes: 40, choruses: 2, full: 0.75, shown: 16 },
  importance: 0.6,
  chance: { null: "moved in time", count: growth, than: "more" },
  find(facts, threshold, least) {
    const { account, solo } = facts;
    const densities = fullness(facts);
    const [first, last] = [densities[0] ?? 0, densities[densities.length - 1] ?? 0];
    if (densities.length < 2 || first <= 0 || last / first < threshold) return null;
    if (densities.filter((density) => density > last).length > 1) return null;
    return {
      observed: last / first,
      strength: beyond(last / first, threshold, least.full),
      evidence: ids(solo.filter((note) => note.chorus === account.choruses.length).slice(0, least.shown)),
      words: { first: first.toFixed(1), last: last.toFixed(1) },
    };
  },
  wording: ["The solo grows: from {first} notes a bar in the first chorus to {last} in the last."],
  practice: null,
});
