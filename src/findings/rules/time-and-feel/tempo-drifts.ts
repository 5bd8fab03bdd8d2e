import { beyond, type Rule, rule } from "../../rule.ts";

export const tempoDrifts: Rule = rule({
  id: "tempo-drifts",
  heading: "time and feel",
  kind: "practise",
  measure: "drift of the tempo, percent a minute",
  unit: "percent a minute",
  threshold: 4,
  reason:
    "Over a minute the tempo moves by more than one and a half times what can be heard at once (2.5 %, Friberg & Sundberg 1995).",
  least: { notes: 24, full: 10 },
  importance: 0.8,
  chance: "fact",
  find({ account }, threshold, least) {
    const drift = account.rhythm.tempoStability?.drift ?? 0;
    const { tempo, method } = account.alignment;
    if (method !== "tracked" || tempo === null || Math.abs(drift) < threshold) return null;
    const up = drift > 0;
    return {
      observed: Math.abs(drift),
      strength: beyond(Math.abs(drift), threshold, least.full),
      evidence: [],
      words: {
        way: up ? "gets faster" : "slows down",
        low: String(Math.round(tempo.slowest)),
        high: String(Math.round(tempo.fastest)),
        drift: Math.abs(drift).toFixed(0),
      },
    };
  },
  wording: [
    "The tempo {way} by about {drift} % a minute (bars between {low} and {high}). Tap two and four with the foot and let the foot lead the hand.",
    "Over the take the pulse {way}, some {drift} % a minute. Busy bars are often where it starts: play them again slowly with a click on two and four.",
  ],
  practice: {
    kind: "steady time",
    title: "Click on two and four",
    text: "The same four bars with the click on two and four only, then with one click in two bars; check that you meet it.",
  },
});
