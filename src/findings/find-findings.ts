import { beatIsDoubted, placeIsDoubted } from "../account/asked-place.ts";
import { chartIsAsked } from "../account/rests-on.ts";
import type { AccountNote, Finding, Withheld } from "../account.ts";
import { isSure } from "../take/index.ts";
import { fill } from "../words/index.ts";
import { chooseFindings } from "./choose.ts";
import { arePaired, EXCLUSIONS, REPEATS } from "./exclusions.ts";
import { type Account, type Facts, factsOf } from "./facts.ts";
import { checkGoals } from "./goals.ts";
import { type DrawLine, type Fired, type Judgement, RATE, weighByChance } from "./judge.ts";
import type { Match, Rule } from "./rule.ts";
import { RULES } from "./rules/index.ts";
import { LIMITS } from "./rules/limits/index.ts";

/** What is said of a take, and what applies and is not said. */
export interface Judged {
  readonly findings: readonly Finding[];
  readonly withheld: readonly Withheld[];
}

/**
 * What a teacher would say of the take: the goals that were set first, then at most three things that work, three to
 * practise and a few notices, each with the notes and bars by which it can be heard. Rules whose sample is too small
 * say nothing, nor does a rule that chance serves as well; of the harmony nothing is said while the chart or the place
 * of the bars is in question, of time while the beat is. Nothing at all is a good answer. Never a mark.
 *
 * @param drawLine the line of a draw of chance; null weighs nothing, for accounts that have no notes behind them
 */
export function judgeFindings(facts: Facts, drawLine: DrawLine | null): Judged {
  const { account } = facts;
  const goals = checkGoals(account.options.goals, facts);
  const fired = firedRules(facts, RULES);
  const asked = fired.flatMap((one) => {
    const why = doubtOf(one.rule, account);
    return why === null ? [] : [{ one, rule: one.rule.id, why }];
  });
  const open = fired.filter((fire) => !asked.some(({ one }) => one === fire));
  const weighed = drawLine === null ? null : weighByChance(open, drawLine);
  const chanceLike = open.filter(({ rule }) => (weighed?.get(rule.id)?.chance.q ?? 0) > RATE);
  const earned = open.filter((one) => !chanceLike.includes(one));
  const findings = earned.map(({ rule, match }) =>
    findingOf(rule, match, facts, weighed?.get(rule.id) ?? null),
  );
  const contradicted = outweighedIn(findings, EXCLUSIONS);
  const agreeing = findings.filter(({ id }) => !contradicted.has(id));
  const repeated = outweighedIn(agreeing, REPEATS);
  return {
    findings: chooseFindings([...goals, ...agreeing.filter(({ id }) => !repeated.has(id))]),
    withheld: [
      ...asked.map(({ rule, why }) => ({ rule, why })),
      ...chanceLike.map(({ rule }) => ({ rule: rule.id, why: "chance" as const })),
      ...[...contradicted].map((rule) => ({ rule, why: "contradicts" as const })),
      ...[...repeated].map((rule) => ({ rule, why: "repeats" as const })),
      ...unsureRules(facts, fired).map(({ id }) => ({ rule: id, why: "unsure" as const })),
    ],
  };
}

/** What has to be known before a rule may speak: the chart and the bars for harmony, the beat for time; null if nothing. */
function doubtOf(rule: Rule, account: Account): "chart" | "place" | null {
  // Those of the limits say themselves what cannot be told.
  if (LIMITS.includes(rule)) return null;
  const { heading } = rule;
  const onChords = heading === "harmonic awareness" || rule.onChords === true;
  if (onChords && chartIsAsked(account)) return "chart";
  if (onChords && placeIsDoubted(account)) return "place";
  return heading === "time and feel" && beatIsDoubted(account) ? "place" : null;
}

/** The findings of an account without chance to weigh them against. */
export function findFindings(account: Account): readonly Finding[] {
  return judgeFindings(factsOf(account), null).findings;
}

/** Every rule that applies, unweighed and unchosen. */
export function allFindings(account: Account, rules: readonly Rule[] = RULES): Finding[] {
  const facts = factsOf(account);
  return firedRules(facts, rules).map(({ rule, match }) => findingOf(rule, match, facts, null));
}

function firedRules(facts: Facts, rules: readonly Rule[]): Fired[] {
  return rules.flatMap((rule): Fired[] => {
    if (!enough(rule, facts)) return [];
    const found = rule.find(facts, rule.threshold);
    const match = found === null ? null : onSureNotes(found, facts);
    return match === null ? [] : [{ rule, match }];
  });
}

/** Rules that apply when every note is taken for sure, and not to those that were heard surely. */
function unsureRules({ account }: Facts, fired: readonly Fired[]): Rule[] {
  if (account.notes.every(isSure)) return [];
  const notes = account.notes.map(({ certainty: _, ...note }) => note);
  return firedRules(factsOf({ ...account, notes }), RULES)
    .map(({ rule }) => rule)
    .filter((rule) => !fired.some((one) => one.rule === rule));
}

/** A finding that rests on less than this share of sure notes is not said. [practice] */
const LEAST_SURE = 0.75;

/** The match with the sure ones of its notes; null when too many of them were not heard surely. */
function onSureNotes(match: Match, { byId }: Facts): Match | null {
  const evidence = match.evidence.filter((id) => isSure(byId.get(id) ?? {}));
  return evidence.length < LEAST_SURE * match.evidence.length ? null : { ...match, evidence };
}

/** Of each pair of a list, the lighter one. */
function outweighedIn(findings: readonly Finding[], pairs: typeof EXCLUSIONS): Set<string> {
  const out = new Set<string>();
  const heaviest = [...findings].sort((a, b) => b.weight - a.weight || (a.id < b.id ? -1 : 1));
  heaviest.forEach((finding, i) => {
    if (out.has(finding.id)) return;
    for (const other of heaviest.slice(i + 1)) if (arePaired(pairs, finding.id, other.id)) out.add(other.id);
  });
  return out;
}

function enough(rule: Rule, facts: Facts): boolean {
  const { least } = rule;
  return (
    facts.solo.length >= (least.notes ?? 0) &&
    facts.phrases.length >= (least.phrases ?? 0) &&
    facts.account.choruses.length >= (least.choruses ?? 0)
  );
}

function findingOf(rule: Rule, match: Match, facts: Facts, judged: Judgement | null): Finding {
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
    measure: rule.measure,
    unit: rule.unit,
    basis: basisOf(rule),
    ...(match.observed === undefined ? {} : { observed: rounded(match.observed) }),
    ...judged,
  };
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

function basisOf({ chance }: Rule): NonNullable<Finding["basis"]> {
  if (chance === "fact") return "fact";
  return chance === "closed form" ? "idea" : "chance";
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
