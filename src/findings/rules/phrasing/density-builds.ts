import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const densityBuilds: Rule = {
  id: "density-builds",
  heading: "phrasing and shape",
  kind: "works",
  measure: "notes a bar in the last chorus over the first",
  threshold: 1.25,
  reason:
    "A quarter more is heard as growth [practice]; the last chorus must also be the fullest or next to it.",
  least: { notes: 40, choruses: 2 },
  importance: 0.6,
  chance: "moved in time",
  find({ account, solo }, threshold) {
    const densities = account.choruses.map((one) => one.density.perBar);
    const [first, last] = [densities[0]!, densities[densities.length - 1]!];
    if (first <= 0 || last / first < threshold) return null;
    if (densities.filter((density) => density > last).length > 1) return null;
    return {
      observed: last / first,
      strength: beyond(last / first, threshold, 0.75),
      evidence: ids(solo.filter((note) => note.chorus === account.choruses.length).slice(0, 16)),
      words: { first: first.toFixed(1), last: last.toFixed(1) },
    };
  },
  wording: ["The solo grows: from {first} notes a bar in the first chorus to {last} in the last."],
  practice: null,
};
