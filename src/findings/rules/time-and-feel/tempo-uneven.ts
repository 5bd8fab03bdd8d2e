import { beyond, type Rule, rule } from "../../rule.ts";

export const tempoUneven: Rule = rule({
  id: "tempo-uneven",
  heading: "time and feel",
  kind: "practise",
  measure: "standard deviation of the bars' tempos over their mean, without a click",
  unit: "share",
  threshold: 0.06,
  reason: "More than twice the least change that can be heard (2.5 %, Friberg & Sundberg 1995), bar for bar.",
  least: { notes: 24, full: 0.08, drift: 4 },
  importance: 0.65,
  chance: "fact",
  find({ account }, threshold, least) {
    const { tempoStability } = account.rhythm;
    if (account.alignment.method !== "tracked" || tempoStability === null) return null;
    if (tempoStability.variation < threshold || Math.abs(tempoStability.drift) >= least.drift) return null;
    return {
      observed: tempoStability.variation,
      strength: beyond(tempoStability.variation, threshold, least.full),
      evidence: [],
      words: { percent: (tempoStability.variation * 100).toFixed(0) },
    };
  },
  wording: [
    "Bars come out longer and shorter by about {percent} %, without going one way. Count the rests aloud: that is where bars stretch.",
  ],
  practice: {
    kind: "steady time",
    title: "Count through the rests",
    text: "Two bars played, two bars of rest counted aloud, with the click on two and four.",
  },
});
