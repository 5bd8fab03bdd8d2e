import type { FindingHeading, FindingUnit } from "../account.ts";
import type { PracticeKind } from "../practice/kinds.ts";
import type { Facts } from "./facts.ts";
import type { MeasuredLine } from "./measured-line.ts";

/** What a rule found in a take. */
export interface Match {
  /** What was measured, in the measure's unit; left out where there is no one number. */
  readonly observed?: number;
  /** 0 to 1: how far past its threshold the measure is. */
  readonly strength: number;
  /** Ids of the notes by which a reader can hear it, in time order; may be empty when it is about silence. */
  readonly evidence: readonly string[];
  /** What fills the braces of the wording. */
  readonly words: Readonly<Record<string, string>>;
}

/** Chances made from the take itself, which a finding is weighed against. */
export const NULLS = ["pitches drawn", "pitches shuffled", "moved in time"] as const;

/**
 * - "pitches drawn": the same rhythm, with pitches drawn evenly from the same range;
 * - "pitches shuffled": the same rhythm, with the same pitches in another order;
 * - "moved in time": the same notes, with the gaps between their onsets in another order.
 */
export type Null = (typeof NULLS)[number];

/** How a rule is weighed against draws of a null. */
export interface Weighed {
  readonly null: Null;
  /** What is counted, in the rule's unit, of the take and of every draw; null where there is nothing to count. */
  readonly count: (line: MeasuredLine) => number | null;
  /** Whether the take has to show more or less of it than chance. */
  readonly than: "more" | "less";
}

/**
 * How a rule is weighed; "closed form" where what the rule reads has passed a test of its own (an idea is one only if
 * it returns more often than chance); "fact" where nothing of the kind could tell: worded as a fact, never as praise.
 */
export type ChanceOf = Weighed | "closed form" | "fact";

/**
 * The numbers of a rule beside its threshold. Those that many rules have stand here with their reasons; what a rule
 * has alone is told by its name, its measure or its reason.
 */
export interface Least {
  /** Fewer solo notes, phrases or choruses say nothing of a habit: two dozen notes are about three bars. [practice] */
  readonly notes?: number;
  readonly phrases?: number;
  readonly choruses?: number;
  /** Fewer of what is counted make no share of it: one more or less would turn it round. [practice] */
  readonly sample?: number;
  /** How far beyond the threshold, in the measure's unit, a finding weighs in full; below 0 downwards. [practice] */
  readonly full?: number;
  /** Beyond this the measure speaks of something else. [practice] */
  readonly most?: number;
  /** Notes that are marked as evidence, and places or names that are told: more are not looked up. [practice] */
  readonly shown?: number;
  readonly named?: number;
  /** Weight of a finding without degrees, 0 to 1: somewhat above the middle, so that it yields to a strong one. [practice] */
  readonly strength?: number;
  readonly [name: string]: number | undefined;
}

/** One thing that a teacher might say, and when. Data: read `rules/` like a page of a handbook. */
export interface Rule {
  /** Kebab-case, unique. */
  readonly id: string;
  readonly heading: FindingHeading;
  readonly kind: "works" | "practise" | "notice";
  /** What is measured. */
  readonly measure: string;
  /** What it is counted in. */
  readonly unit: FindingUnit;
  /** The limit on that measure. */
  readonly threshold: number;
  /** Why the limit stands where it does, with its source or `[practice]`. */
  readonly reason: string;
  /** Every other number of the rule, by name. */
  readonly least: Least;
  /** How much a teacher would care, 0 to 1, other things being equal. */
  readonly importance: number;
  /** What chance it must do better than before it may be said. */
  readonly chance: ChanceOf;
  /** Rests on which chord sounds under a note, though it is told of the hand: as little is said of it as of harmony. */
  readonly onChords?: true;
  readonly find: (facts: Facts, threshold: number) => Match | null;
  /** The same thought in more than one way; braces are filled from the match. */
  readonly wording: readonly string[];
  readonly practice: {
    readonly kind: PracticeKind;
    readonly title: string;
    readonly text: string;
  } | null;
}

/** A rule as it is written down: what it finds is told with its own numbers. */
type WrittenRule<L extends Least> = Omit<Rule, "least" | "find"> & {
  readonly least: L;
  readonly find: (facts: Facts, threshold: number, least: L) => Match | null;
};

export function rule<const L extends Least>(written: WrittenRule<L>): Rule {
  return { ...written, find: (facts, threshold) => written.find(facts, threshold, written.least) };
}

/** 0 at the limit, 1 when `value` is `span` or more beyond it; a `span` below 0 looks downwards. */
export function beyond(value: number, limit: number, span: number): number {
  return Math.min(1, Math.max(0, (value - limit) / span));
}
