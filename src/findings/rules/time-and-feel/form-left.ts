import { count } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { pinnedSlips } from "./pinned-slips.ts";

export const formLeft: Rule = rule({
  id: "form-left",
  heading: "time and feel",
  kind: "practise",
  measure: "beats that are left out, or too many, between two pinned bars under a beat that goes on",
  unit: "beats",
  threshold: 0.75,
  reason:
    "Nearer to one beat than to none: bars that somebody has pinned say that the form was left there [practice].",
  least: { full: 1, shown: 8 },
  importance: 0.95,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const [slip] = pinnedSlips(account, threshold).sort((a, b) => Math.abs(b.beats) - Math.abs(a.beats));
    if (slip === undefined) return null;
    const beats = Math.round(Math.abs(slip.beats));
    const { beats: size } = account.chart.meter;
    const what =
      beats % size === 0
        ? count(beats / size, "bar")
        : beats * 2 === size
          ? "half a bar"
          : count(beats, "beat");
    const from = solo.filter(
      ({ chorus, bar }) => chorus > slip.chorus || (chorus === slip.chorus && bar >= slip.bar),
    );
    return {
      observed: Math.abs(slip.beats),
      strength: beyond(Math.abs(slip.beats), threshold, least.full),
      evidence: ids(from.slice(0, least.shown)),
      words: {
        what,
        way: slip.beats > 0 ? "too few" : "too many",
        place: `bar ${slip.bar} of chorus ${slip.chorus}`,
      },
    };
  },
  wording: [
    "Before {place} the form loses its count: {what} {way}, by the bars that were pinned. Play from two bars before it to two bars after and count aloud, through the rests too.",
    "The beat goes on, the form does not: {what} {way} before {place}, as the bars were pinned. Hum the bass note of each bar there while the hand plays.",
  ],
  practice: {
    kind: "steady time",
    title: "Count through the seam",
    text: "Four bars around the place with the click on two and four: count the bars aloud, first with the hand at rest, then as you play.",
  },
});
