import { beyond, type Rule, rule } from "../../rule.ts";

export const tempoSteady: Rule = rule({
  id: "tempo-steady",
  heading: "time and feel",
  kind: "notice",
  measure: "standard deviation of the bars' tempos over their mean, without a click",
  unit: "share",
  threshold: 0.016,
  reason:
    "Well under 2.5 %, the least change that can be heard (Friberg & Sundberg 1995), and steadier than four open solos in five.",
  least: { notes: 24, drift: 2.5, full: -0.016 },
  importance: 0.75,
  chance: "fact",
  find({ account }, threshold, least) {
    const { tempoStability } = account.rhythm;
    if (account.alignment.method !== "tracked" || tempoStability === null) return null;
    if (tempoStability.variation > threshold || Math.abs(tempoStability.drift) > least.drift) return null;
    return {
      observed: tempoStability.variation,
      strength: beyond(tempoStability.variation, threshold, least.full),
      evidence: [],
      words: { tempo: String(Math.round(account.alignment.tempo?.median ?? 0)) },
    };
  },
  wording: [
    "The tempo holds near {tempo} to within what an ear can tell.",
    "The pulse stays at about {tempo} from the first bar to the last.",
  ],
  practice: null,
});
