/** Rests, answers, breath. */
import type { Facts } from "../../findings/facts.ts";
import type { Reading } from "../reading.ts";

/** Fewer phrases are no conversation. [practice] */
const PHRASES = 4;

const tooFew = { untold: `fewer than ${PHRASES} phrases to judge by` } as const;

export function rests({ account, phrases }: Facts): Reading {
  const before = phrases.filter(({ phrase }) => phrase.restSeconds > 0);
  const without = phrases.filter(({ phrase }) => phrase.restSeconds <= 0);
  return {
    value: account.rhythm.rests,
    notes: before.flatMap(({ notes }) => notes.slice(-1)),
    open: without.flatMap(({ notes }) => notes.slice(-1)),
  };
}

export function answers({ phrases }: Facts): Reading {
  if (phrases.length < PHRASES) return tooFew;
  const such = phrases.filter(({ phrase }) => phrase.answers !== null);
  const not = phrases.slice(1).filter(({ phrase }) => phrase.answers === null);
  return {
    value: such.length / phrases.length,
    counted: { of: such.length, among: phrases.length },
    notes: such.flatMap(({ notes }) => notes),
    open: not.flatMap(({ notes }) => notes.slice(0, 1)),
  };
}

export function longestPhrase({ phrases }: Facts): Reading {
  const [longest] = [...phrases].sort((a, b) => b.phrase.seconds - a.phrase.seconds);
  if (longest === undefined) return { untold: "no phrase" };
  return { value: longest.phrase.seconds, notes: [], open: longest.notes };
}
