/** What the parts of a feedback page share: the take, its account, what was added to it, and the ways to change that. */
import type { Analysis, Goal } from "../../src/account.ts";
import type { TakeRow } from "../shell/api.ts";
import type { SelectionStore } from "../shell/selection.ts";
import type { FeedbackNotes } from "./feedback-notes.ts";

export interface FindingDesk {
  readonly take: TakeRow;
  readonly analysis: Analysis;
  readonly notes: FeedbackNotes;
  readonly store: SelectionStore;
  /** Keeps the notes; trouble is said at the foot of the window. */
  save(): void;
  /** Draws the words anew. */
  show(): void;
  say(text: string, undo?: { label: string; run: () => void }): void;
  /** Brings the notes of the selected finding into sight. */
  follow(): void;
  /** Plays what is selected, or stops. */
  listen(): void;
  /** Analyses the take anew with these goals; `before` are the goals that an undo brings back. */
  setGoals(goals: readonly Goal[], words: string, before?: readonly Goal[]): Promise<void>;
}
