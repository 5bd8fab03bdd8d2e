import type { Analysis } from "../account.ts";

/** A take with the day on which it was played. */
export interface DatedTake {
  /** Of the store. */
  readonly id: string;
  /** ISO date. */
  readonly date: string;
  readonly title: string;
  readonly analysis: Analysis;
}
