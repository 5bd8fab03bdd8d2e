import type { AccountNote } from "../account.ts";
import type { Facts } from "../findings/facts.ts";

/** What a measure reads from a take: a number with the notes behind it, or why the take does not tell. */
export type Reading = Told | { readonly untold: string };

export interface Told {
  /** In the measure's unit; shares from 0 to 1. */
  readonly value: number;
  /** Of a share: how many of how many. */
  readonly counted?: { readonly of: number; readonly among: number };
  /** Notes by which it can be heard, in time order. */
  readonly notes: readonly AccountNote[];
  /** Notes at which it could have been and was not, in time order. */
  readonly open: readonly AccountNote[];
}

export type Reader = (facts: Facts) => Reading;

/** Which of some notes are such, as a share; too few of them do not tell. */
export function shareOf(
  all: readonly AccountNote[],
  such: (note: AccountNote) => boolean,
  least: { readonly notes: number; readonly named: string },
): Reading {
  if (all.length < least.notes) {
    return { untold: `fewer than ${least.notes} ${least.named} to judge by` };
  }
  const notes = all.filter(such);
  return {
    value: notes.length / all.length,
    counted: { of: notes.length, among: all.length },
    notes,
    open: all.filter((note) => !such(note)),
  };
}
