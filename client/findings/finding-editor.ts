/** What the parts that read and edit findings share: the take, its account, the state, and the ways to change it. */
import { html, render, type TemplateResult } from "lit-html";
import type { TakeRow } from "../../server/contract/takes.ts";
import type { Analysis, Goal } from "../../src/account.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { differingTexts } from "./differing-texts.ts";
import { type FindingsState, findingsOf } from "./findings-model.ts";
import type { Keeper } from "./keeper.ts";
import { changed, isKept, written } from "./keeping-model.ts";

export interface FindingDesk {
  readonly take: TakeRow;
  readonly analysis: Analysis;
  readonly store: SelectionStore;
  state(): FindingsState;
  /** Draws the state that follows, and keeps it with the take where its notes are new; `soon` while it is typed. */
  change(next: (state: FindingsState) => FindingsState, soon?: "soon"): void;
  say(text: string, undo?: { label: string; run: () => void }): void;
  /** Chooses the notes of a finding and plays them; stops when they sound. */
  hear(finding: string): void;
  /** Brings the notes of the selected finding into sight. */
  follow(): void;
  /** Analyses the take anew with these goals; `before` are the goals that an undo brings back. */
  setGoals(goals: readonly Goal[], words: string, before?: readonly Goal[]): Promise<void>;
}

type Ways = Pick<FindingDesk, "take" | "analysis" | "store" | "say" | "hear" | "follow" | "setGoals">;

/** What a desk begins with: who keeps the take's feedback, and the findings whose line is unfolded, by id. */
export interface DeskStart {
  readonly keeper: Keeper;
  readonly open: ReadonlySet<string>;
}

/** A desk that draws itself into `host`: what is not kept, and what differs, stands above the rest. */
export function findingDesk(
  host: HTMLElement,
  { keeper, open }: DeskStart,
  ways: Ways,
  draw: (desk: FindingDesk) => TemplateResult,
): { readonly desk: FindingDesk; end(): void } {
  const { notes, half } = keeper.state();
  let state: FindingsState = { ...findingsOf(notes), ...half, open };
  const desk: FindingDesk = {
    ...ways,
    state: () => state,
    change(next, soon) {
      const before = state;
      state = next(state);
      const { notes: now, wordings, remarks } = state;
      if (wordings !== before.wordings || remarks !== before.remarks)
        keeper.change((kept) => written(kept, { wordings, remarks }), "soon");
      if (now !== before.notes) keeper.change((kept) => changed(kept, now), soon);
      show();
    },
  };
  const show = () =>
    render(
      html`<p class="kept-state no-print" role="status">${isKept(keeper.state()) ? "" : "Not saved yet."}</p>
        ${differingTexts(keeper, ways.analysis.findings)}${draw(desk)}`,
      host,
    );
  show();
  const ends = [
    ways.store.watch((what) => {
      if (what === "selection") show();
    }),
    keeper.watch(() => {
      state = { ...state, notes: keeper.state().notes };
      show();
    }),
  ];
  return {
    desk,
    end() {
      for (const end of ends) end();
    },
  };
}
