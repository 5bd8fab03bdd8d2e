/** The feedback page of a take: goals, what works, what to practise, what to notice, each tied to its notes; to edit, sign and print. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { paperChoice } from "../parts/paper-choice.ts";
import { indexAccount } from "../shell/account-index.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker, Shell } from "../shell/page.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { followAddress, storeOfAddress } from "../shell/store-of-address.ts";
import { day } from "../shell/words.ts";
import { transport } from "../sound/transport.ts";
import { askOfTake } from "../take/question.ts";
import { chorusPage } from "../views/chorus-page.ts";
import { frameView } from "../views/frame.ts";
import { type DeskStart, type FindingDesk, findingDesk } from "./finding-editor.ts";
import { findingGroups } from "./finding-groups.ts";
import { isWaiting, noted } from "./findings-model.ts";
import { goalPanel } from "./goal-panel.ts";
import { heldBack } from "./held-back.ts";
import { nameTake, openKeeper } from "./keeper.ts";
import { notMeasured } from "./not-measured.ts";
import { ownView } from "./own-view.ts";
import { underLens } from "./under-lens.ts";

export const findingsPage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [take, analysis, keeper] = await Promise.all([takes.get(id), takes.analysis(id), openKeeper(id)]);
  nameTake(id, take.title);
  const store = storeOfAddress(query, shell);
  const host = h("div", { class: "feedback paper-a4" });
  const change: Change = async (wanted, words, undo) => {
    host.setAttribute("aria-busy", "true");
    try {
      const next = await takes.change(id, wanted);
      rendered.end();
      store.select({ kind: "none" });
      rendered = renderFindings(
        host,
        next.take,
        next.analysis,
        { keeper, open: rendered.open() },
        store,
        shell,
        change,
      );
      shell.notify(words, undo && { label: "Undo", run: () => void change(undo, "It is as it was before.") });
    } catch (error) {
      shell.notify((error as Error).message);
    } finally {
      host.removeAttribute("aria-busy");
    }
  };
  let rendered = renderFindings(host, take, analysis, { keeper, open: new Set() }, store, shell, change);
  return {
    title: `Findings: ${take.title ?? "take"}`,
    element: host,
    query: (next) => followAddress(store, next),
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
  start: DeskStart,
  store: SelectionStore,
  shell: Shell,
  change: Change,
): { open(): ReadonlySet<string>; end(): void } {
  const index = indexAccount(analysis);
  const listen = transport(index, store);
  const frame = frameView(chorusPage(store), index, store, { play: () => listen.toggle() });
  const body = h("div", { class: "findings" });
  let goals: (() => TemplateResult) | null = null;
  const { desk, end } = findingDesk(
    body,
    start,
    {
      take,
      analysis,
      store,
      say: (text, undo) => shell.notify(text, undo),
      hear: (finding) => listen.hear({ kind: "finding", finding }),
      follow: () => frame.element.scrollIntoView({ block: "nearest", behavior: "smooth" }),
      setGoals: (next, words, before) => change(goalsOf(next), words, before && goalsOf(before)),
    },
    (own) => {
      goals ??= goalPanel(own);
      const found = isWaiting(own.state())
        ? html`${ownView(own)}<p class="empty">The findings are shown when the player has written.</p>`
        : html`${underLens(own, html`${findingGroups(own)}${heldBack(analysis.withheld)}`)}${notMeasured()}${ownView(own)}`;
      // A goal that was set is checked before anything else; the form for one does not stand before what was found.
      const body = analysis.options.goals.length > 0 ? html`${goals()}${found}` : html`${found}${goals()}`;
      return html`${body}${isWaiting(own.state()) ? nothing : signature(own)}`;
    },
  );
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
    open: () => desk.state().open,
    end() {
      end();
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
      [
        take.player,
        day(take.date) || `sent ${day(take.createdAt)}`,
        take.chartName,
        withAccidentals(take.key),
      ]
        .filter(Boolean)
        .join(", "),
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

function signature(desk: FindingDesk): TemplateResult {
  const { signed } = desk.state().notes;
  const keep = (soon?: "soon") => (event: Event) =>
    desk.change((now) => noted(now, { signed: (event.target as HTMLInputElement).value }), soon);
  return html`<p class="signature">
    <label>Signed <input name="signed" .value=${signed} @input=${keep("soon")} @change=${keep()} /></label
    ><span class="print-only">${signed}</span>
  </p>`;
}
