/** The feedback page of a take: goals, what works, what to practise, what to notice, each tied to its notes; to edit, sign and print. */
import { html } from "lit-html";
import type { Analysis } from "../../src/account.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { paperChoice } from "../parts/paper-choice.ts";
import { indexAccount } from "../shell/account-index.ts";
import { type TakeChange, type TakeRow, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker, Shell } from "../shell/page.ts";
import { createSelection, readSelection, type SelectionStore, selectionQuery } from "../shell/selection.ts";
import { day } from "../shell/words.ts";
import { transport } from "../sound/transport.ts";
import { askOfTake } from "../take/question.ts";
import { chorusPage } from "../views/chorus-page.ts";
import { frameView } from "../views/frame.ts";
import { type FeedbackNotes, keepNotes, readNotes } from "./feedback-notes.ts";
import type { FindingDesk } from "./finding-editor.ts";
import { findingGroups } from "./finding-groups.ts";
import { notMeasured } from "./finding-words.ts";
import { goalPanel } from "./goal-panel.ts";
import { heldBack } from "./judged.ts";
import { ownView } from "./own-view.ts";

export const findingsPage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [take, analysis, notes] = await Promise.all([takes.get(id), takes.analysis(id), readNotes(id)]);
  const store = createSelection(readSelection(query), (selection) =>
    shell.replaceQuery(selectionQuery(selection)),
  );
  const host = h("div", { class: "feedback paper-a4" });
  const change: Change = async (wanted, words, undo) => {
    host.setAttribute("aria-busy", "true");
    try {
      const next = await takes.change(id, wanted);
      rendered.end();
      store.select({ kind: "none" });
      rendered = renderFindings(host, next.take, next.analysis, notes, store, shell, change);
      shell.notify(words, undo && { label: "Undo", run: () => void change(undo, "It is as it was before.") });
    } catch (error) {
      shell.notify((error as Error).message);
    } finally {
      host.removeAttribute("aria-busy");
    }
  };
  let rendered = renderFindings(host, take, analysis, notes, store, shell, change);
  return {
    title: `Findings: ${take.title ?? "take"}`,
    element: host,
    query: (next) => store.select(readSelection(next)),
    end: () => rendered.end(),
  };
};

/** Changes the take, says so, and offers the way back where `undo` is one. */
type Change = (wanted: TakeChange, words: string, undo?: TakeChange) => Promise<void>;

const goalsOf = (goals: Parameters<FindingDesk["setGoals"]>[0]): TakeChange => ({
  options: { goals: goals.map((goal) => ({ ...goal })) },
});

function renderFindings(
  host: HTMLElement,
  take: TakeRow,
  analysis: Analysis,
  notes: FeedbackNotes,
  store: SelectionStore,
  shell: Shell,
  change: Change,
): { end(): void } {
  const index = indexAccount(analysis);
  const listen = transport(index, store);
  const frame = frameView(chorusPage(), index, store, { play: () => listen.toggle() });
  const body = h("div", { class: "findings" });
  const desk: FindingDesk = {
    take,
    analysis,
    notes,
    store,
    setGoals: (goals, words, before) => change(goalsOf(goals), words, before && goalsOf(before)),
    save() {
      keepNotes(take.id, notes).catch((error: Error) => shell.notify(`This was not kept: ${error.message}`));
    },
    show() {
      const waiting = notes.askFirst && !notes.asked;
      body.replaceChildren(
        goalPanel(desk, waiting),
        ownView(desk, waiting),
        ...(waiting
          ? [h("p", { class: "empty" }, "The findings are shown when the player has written.")]
          : [...findingGroups(desk), heldBack(analysis.withheld), notMeasured(), signature(desk)].filter(
              (part) => part !== null,
            )),
      );
      mark();
    },
    say: (text, undo) => shell.notify(text, undo),
    follow: () => frame.element.scrollIntoView({ block: "nearest", behavior: "smooth" }),
    listen: () => listen.toggle(),
  };
  const mark = () => {
    for (const words of body.querySelectorAll<HTMLElement>("[data-finding]")) {
      const on = store.selection.kind === "finding" && store.selection.finding === words.dataset.finding;
      words.setAttribute("aria-pressed", String(on));
    }
  };
  const unwatch = store.watch((what) => {
    if (what === "selection") mark();
  });
  desk.show();
  host.replaceChildren(
    feedbackHead(take, host),
    askOfTake(
      analysis,
      change,
      html`<a href=${`#/takes/${take.id}`}>Another chart: on the take's page</a>`,
    ) ?? "",
    body,
    h("div", { class: "evidence" }, listen.element, frame.element),
  );
  return {
    end() {
      unwatch();
      frame.end();
      listen.end();
    },
  };
}

/** What the page is about, and the ways on; `host` takes the paper that is chosen. */
function feedbackHead(take: TakeRow, host: HTMLElement): HTMLElement {
  return h(
    "header",
    { class: "take-head" },
    h("h1", {}, `Feedback on “${take.title ?? "a take"}”`),
    h(
      "p",
      { class: "take-meta" },
      [take.player, day(take.date), take.chartName, withAccidentals(take.key)].filter(Boolean).join(", "),
    ),
    h(
      "div",
      { class: "take-ways no-print" },
      h("a", { class: "button", href: `#/takes/${take.id}` }, "Back to the take"),
      h("a", { class: "button", href: `#/takes/${take.id}/practice` }, "Practice sheet"),
      h("button", { type: "button", class: "main", onClick: () => window.print() }, "Print"),
      paperChoice(host),
    ),
  );
}

function signature(desk: FindingDesk): HTMLElement {
  const { notes } = desk;
  const printedName = h("span", { class: "print-only" }, notes.signed);
  const field = h("input", { name: "signed", value: notes.signed });
  field.addEventListener("input", () => {
    printedName.textContent = field.value;
  });
  field.addEventListener("change", () => {
    notes.signed = field.value;
    desk.save();
  });
  return h("p", { class: "signature" }, h("label", {}, "Signed ", field), printedName);
}
