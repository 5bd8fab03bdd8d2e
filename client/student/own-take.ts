/** A player's own take behind a link: first what they think of it themselves, then the take as it is to be read. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Feedback } from "../../src/findings/lesson.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { type Change, drawnFrom, fieldText } from "../shell/drawn-from.ts";
import type { Page, PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { readPage } from "../take/shared-take.ts";
import {
  kept,
  mayRead,
  type OwnTake,
  opened,
  passedBy,
  refused,
  sending,
  toSend,
  unkept,
  written,
} from "./own-take-model.ts";

export const ownTakePage: PageMaker = async ([player = "", take = ""], query, shell) => {
  const base = `/takes/${encodeURIComponent(take)}`;
  const draftKey = `ledgerline-own-view ${take}`;
  const feedback = await fetchJson<Feedback>(`${base}/feedback`);
  const [first, rest] = [h("div", {}), h("div", {})];
  let page: Page | null = null;

  const turn: Change<OwnTake> = (next) => {
    desk.change(next);
    const state = desk.state();
    // The draft outlives a reload and the way back; it is gone with the window, since a tablet is shared.
    if (unkept(state)) sessionStorage.setItem(draftKey, state.draft);
    else sessionStorage.removeItem(draftKey);
    if (mayRead(state)) void read();
  };
  const desk = drawnFrom(first, opened(feedback, sessionStorage.getItem(draftKey)), (state) =>
    drawing(state, player, turn, () => void keep()),
  );

  async function keep(): Promise<void> {
    const own = toSend(desk.state());
    if (own === null) return;
    turn(sending);
    try {
      await fetchJson<unknown>(`${base}/own-view`, {
        method: "PUT",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ own }),
      });
      turn((state) => kept(state, own));
    } catch (error) {
      turn((state) => refused(state, error));
    }
  }

  async function read(): Promise<void> {
    if (rest.childElementCount > 0) return;
    rest.append(h("p", { class: "waiting", role: "status" }, "Reading …"));
    page = await readPage([take], query, shell);
    rest.replaceChildren(page.element);
  }

  if (mayRead(desk.state())) await read();
  return {
    title: "Your take",
    element: h("div", { class: "stack" }, first, rest),
    query: (next) => page?.query?.(next),
    key: (event) => page?.key?.(event),
    end: () => page?.end?.(),
  };
};

function drawing(state: OwnTake, player: string, change: Change<OwnTake>, keep: () => void): TemplateResult {
  return html`<section class="sheet own-view no-print">
    <p><a class="button" href=${`#/students/${encodeURIComponent(player)}`}>Your page</a></p>
    <h1>Your own view first</h1>
    <label>What went well, what not yet, what next?
      <textarea
        rows="4"
        name="own-view"
        .value=${state.draft}
        @input=${(event: Event) => change((now) => written(now, fieldText(event)))}
      ></textarea></label>
    <div class="take-ways">
      <button type="button" class="main" ?disabled=${toSend(state) === null} @click=${keep}>
        ${state.sending ? "Being kept …" : "Keep it, and read on"}
      </button>
      ${
        mayRead(state) || state.askedFor
          ? nothing
          : html`<button type="button" class="quiet" @click=${() => change(passedBy)}>Read without writing</button>`
      }
    </div>
    <p class="hint" role="status">${
      state.kept === "" ? "" : unkept(state) ? "Not kept yet." : "Kept: your teacher sees it."
    }</p>
    ${state.refused === null ? nothing : refusalNote(state.refused)}
  </section>`;
}
