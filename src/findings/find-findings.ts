import type { AccountNote, Finding } from "../account.ts";
import { isSure } from "../take/index.ts";
import { fill } from "../words/index.ts";
import { chooseFindings } from "./choose.ts";
import { type Account, type Facts, factsOf } from "./facts.ts";
import { checkGoals } from "./goals.ts";
import type { Match, Rule } from "./rule.ts";
import { RULES } from "./rules/index.ts";

/**
 * What a teacher would say of the take: the goals that were set first, then at most three things that work, three to practise and a few notices, each
 * with the notes and bars by which it can be heard. Rules whose sample is too small say nothing. Never a mark.
 */
export function findFindings(account: Account): Finding[] {
  const goals = checkGoals(account.options.goals, factsOf(account));
  return chooseFindings([...goals, ...allFindings(account)]);
}

/** Every rule that applies, unchosen, for a teacher who wants to add one to the page. */
export function allFindings(account: Account, rules: readonly Rule[] = RULES): Finding[] {
  const facts = factsOf(account);
  const findings: Finding[] = [];
  for (const rule of rules) {
    if (!enough(rule, facts)) continue;
    const match = rule.find(facts, rule.threshold);
    const relied = match === null ? null : onSureNotes(match, facts);
    if (relied !== null) findings.push(findingOf(rule, relied, facts));
  }
  return findings;
}

/** A finding that rests on less than this share of sure notes is not said. [practice] */
const LEAST_SURE = 0.75;

/** The match with the sure ones of its notes; null when too many of them were not heard surely. */
function onSureNotes(match: Match, { byId }: Facts): Match | null {
  const evidence = match.evidence.filter((id) => isSure(byId.get(id) ?? {}));
  return evidence.length < LEAST_SURE * match.evidence.length ? null : { ...match, evidence };
}

function enough(rule: Rule, facts: Facts): boolean {
  const { least } = rule;
  return (
    facts.solo.length >= (least.notes ?? 0) &&
    facts.phrases.length >= (least.phrases ?? 0) &&
    facts.account.choruses.length >= (least.choruses ?? 0)
  );
}

function findingOf(rule: Rule, match: Match, facts: Facts): Finding {
  const variant = variantOf(facts.account.source.sha256, facts.account.options.seed, rule);
  return {
    id: rule.id,
    heading: rule.heading,
    kind: rule.kind,
    weight: rule.importance * (0.4 + 0.6 * match.strength),
    text: fill(rule.wording[variant]!, match.words),
    evidence: [...match.evidence],
    bars: barsOf(match.evidence, facts.byId),
    practice:
      rule.practice === null
        ? null
        : {
            title: fill(rule.practice.title, match.words),
            text: fill(rule.practice.text, match.words),
            kind: rule.practice.kind,
          },
  };
}

/** The variant depends on the take, not on chance, so that the same take always reads the same. */
function variantOf(sha256: string, seed: number, rule: Rule): number {
  let hash = seed | 0;
  for (const letter of sha256 + rule.id) hash = (Math.imul(hash, 31) + letter.charCodeAt(0)) | 0;
  return Math.abs(hash) % rule.wording.length;
}

function barsOf(evidence: readonly string[], byId: ReadonlyMap<string, AccountNote>): Finding["bars"] {
  const bars = new Map<string, { chorus: number; bar: number }>();
  for (const id of evidence) {
    const note = byId.get(id);
    if (note) bars.set(`${note.chorus}:${note.bar}`, { chorus: note.chorus, bar: note.bar });
  }
  return [...bars.values()];
}
