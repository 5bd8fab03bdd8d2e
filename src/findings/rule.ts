import type { FindingHeading } from "../account.ts";
import type { PracticeKind } from "../practice/kinds.ts";
import type { Facts } from "./facts.ts";

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

/**
 * The null of a rule; "closed form" where what the rule reads has passed a test of its own (an idea is one only if it
 * returns more often than chance); "fact" where none of them could tell: worded as a fact, never as praise.
 */
export type ChanceOf = Null | "closed form" | "fact";

/** One thing that a teacher might say, and when. Data: read `rules/` like a page of a handbook. */
export interface Rule {
  /** Kebab-case, unique. */
  readonly id: string;
  readonly heading: FindingHeading;
  readonly kind: "works" | "practise" | "notice";
  /** What is measured, with its unit. */
  readonly measure: string;
  /** The limit on that measure. */
  readonly threshold: number;
  /** Why the limit stands where it does, with its source or `[practice]`. */
  readonly reason: string;
  /** Below these sample sizes the rule says nothing. */
  readonly least: { readonly notes?: number; readonly phrases?: number; readonly choruses?: number };
  /** How much a teacher would care, 0 to 1, other things being equal. */
  readonly importance: number;
  /** What chance it must do better than before it may be said. */
  readonly chance: ChanceOf;
  readonly find: (facts: Facts, threshold: number) => Match | null;
  /** The same thought in more than one way; braces are filled from the match. */
  readonly wording: readonly string[];
  readonly practice: {
    readonly kind: PracticeKind;
    readonly title: string;
    readonly text: string;
  } | null;
}

/** 0 at the limit, 1 when `value` is `span` or more beyond it; a `span` below 0 looks downwards. */
export function beyond(value: number, limit: number, span: number): number {
  return Math.min(1, Math.max(0, (value - limit) / span));
}
