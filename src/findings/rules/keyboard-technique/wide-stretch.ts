import { placesInWords } from "../../../words/index.ts";
import { type Facts, ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const wideStretch: Rule = rule({
  id: "wide-stretch",
  heading: "keyboard technique",
  kind: "notice",
  measure: "notes that lie further apart than fingers can go, or are stretched for in a wide shape",
  unit: "notes",
  threshold: 2,
  reason:
    "Two notes make a reach; greatest spans after Parncutt, Sloboda, Clarke, Raekallio & Desain 1997; caution comes before any other advice.",
  least: { full: 6 },
  importance: 0.9,
  chance: "fact",
  find(facts, threshold, least) {
    const { caution } = facts.account.handFit;
    const notes = reachedFor(facts).map((id) => facts.byId.get(id)!);
    if (notes.length < threshold || caution === null) return null;
    return {
      observed: notes.length,
      strength: beyond(notes.length, threshold, least.full),
      evidence: ids(notes),
      words: { places: placesInWords(notes, facts.account.alignment.choruses) },
    };
  },
  wording: [
    "If the fingers are as this page reads them, some reaches are wide ({places}). Small hands leave the outer finger out. Stop at pain, numbness or tingling and ask a licensed clinician or an experienced teacher; this page gives no medical advice.",
  ],
  practice: null,
});

/** Notes beyond what fingers can go; else, where the shape itself is wide, those that are stretched for inside a place. */
function reachedFor({ account, byId }: Facts): string[] {
  const { beyond: reaches = [], stretches } = account.handFit;
  if (reaches.length > 0) return [...reaches];
  const inside = stretches.filter(({ from, to }) => byId.get(from)?.placement === byId.get(to)?.placement);
  return [...new Set(inside.flatMap(({ from, to }) => [from, to]))];
}
