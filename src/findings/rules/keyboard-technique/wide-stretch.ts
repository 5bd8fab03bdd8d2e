import { placesInWords } from "../../../words/index.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const wideStretch: Rule = rule({
  id: "wide-stretch",
  heading: "keyboard technique",
  kind: "notice",
  measure: "stretches beyond the comfortable span of a pair of fingers",
  unit: "times",
  threshold: 1,
  reason:
    "Comfortable spans after Parncutt, Sloboda, Clarke, Raekallio & Desain 1997; caution comes before any other advice.",
  least: { full: 6 },
  importance: 0.9,
  chance: "fact",
  find(facts, threshold, least) {
    const { caution } = facts.account.handFit;
    // From one place to another the hand moves; only inside a place does it stretch.
    const stretches = facts.account.handFit.stretches.filter(
      (one) => facts.byId.get(one.from)?.placement === facts.byId.get(one.to)?.placement,
    );
    if (stretches.length < threshold || caution === null) return null;
    const notes = stretches.map((one) => facts.byId.get(one.from)).filter((note) => note !== undefined);
    return {
      observed: stretches.length,
      strength: beyond(stretches.length, threshold - 1, least.full),
      evidence: [...new Set(stretches.flatMap((one) => [one.from, one.to]))],
      words: { places: placesInWords(notes, facts.account.alignment.choruses) },
    };
  },
  wording: [
    "If the fingers are as this page reads them, some stretches are wide ({places}). Small hands leave the outer finger out. Stop at pain, numbness or tingling and ask a licensed clinician or an experienced teacher; this page gives no medical advice.",
  ],
  practice: null,
});
