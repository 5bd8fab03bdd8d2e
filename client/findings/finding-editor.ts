/** What the parts that read and edit findings share: the take, its account, the state, and the ways to change it. */
import { render, type TemplateResult } from "lit-html";
import type { TakeRow } from "../../server/contract/takes.ts";
import type { Analysis, Goal } from "../../src/account.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { keepNotes } from "./feedback-notes.ts";
import type { FindingsState } from "./findings-model.ts";

export interface FindingDesk {
  readonly take: TakeRow;
  readonly analysis: Analysis;
  readonly store: SelectionStore;
  state(): FindingsState;
  /** Draws the state that follows, and keeps it with the take where its notes are new. */
  change(next: (state: FindingsState) => FindingsState): void;
  say(text: string, undo?: { label: string; run: () => void }): void;
  /** Chooses the notes of a finding and plays them; stops when they sound. */
  hear(finding: string): void;
  /** Brings the notes of the selected finding into sight. */
  follow(): void;
  /** Analyses the take anew with these goals; `before` are the goals that an undo brings back. */
  setGoals(goals: readonly Goal[], words: string, before?: readonly Goal[]): Promise<void>;
}

type Ways = Pick<FindingDesk, "take" | "analysis" | "store" | "say" | "hear" | "follow" | "setGoals">;

/** A desk that draws itself into `host`; trouble with keeping is said at the foot of the window. */
export function findingDesk(
  host: HTMLElement,
  first: FindingsState,
  ways: Ways,
  draw: (desk: FindingDesk) => TemplateResult,
): { readonly desk: FindingDesk; end(): void } {
  let state = first;
  const desk: FindingDesk = {
    ...ways,
    state: () => state,
    change(next) {
      const before = state.notes;
      state = next(state);
      if (state.notes !== before)
        keepNotes(ways.take.id, state.notes).catch((error: Error) =>
          ways.say(`This was not kept: ${error.message}`),
        );
      show();
    },
  };
  const show = () => render(draw(desk), host);
  show();
  const end = ways.store.watch((what) => {
    if (what === "selection") show();
  });
  return { desk, end };
}
