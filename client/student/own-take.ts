/** A player's own take behind a link: first what they think of it themselves, then the take as it is to be read. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Feedback } from "../../src/findings/lesson.ts";
import { ApiError, fetchJson, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { type Change, drawnFrom, fieldText } from "../shell/drawn-from.ts";
import { keptDraft } from "../shell/kept-draft.ts";
import type { Page, PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";
import { readPage } from "../take/shared-take.ts";
import {
  isAskedFor,
  kept,
  mayRead,
  met,
  type OwnDraft,
  type OwnTake,
  opened,
  passedBy,
  refused,
  sending,
  settled,
  toSend,
  unkept,
  written,
} from "./own-take-model.ts";

export const ownTakePage: PageMaker = async ([player = "", take = ""], query, shell) => {
  const base = `/takes/${encodeURIComponent(take)}`;
  const draft = keptDraft<OwnDraft>(`own-view ${take}`);
  const [feedback, row] = await Promise.all([fetchJson<Feedback>(`${base}/feedback`), takes.get(take)]);
  const about = [row.title, day(row.date), row.chartName].filter(Boolean).join(", ");
  const [first, rest] = [h("div", {}), h("div", { class: "below-own-view" })];
  let page: Page | null = null;

  const turn: Change<OwnTake> = (next) => {
    desk.change(next);
    const state = desk.state();
    draft.write(unkept(state) ? { draft: state.draft, base: state.base } : null);
    if (mayRead(state)) void read();
  };
  const desk = drawnFrom(first, opened(feedback, draft.read()), (state) =>
    drawing(state, { player, about }, turn, () => void keep()),
  );

  async function keep(): Promise<void> {
    const own = toSend(desk.state());
    if (own === null) return;
    const { version } = desk.state().base;
    turn(sending);
    try {
      const answer = await fetchJson<Feedback>(`${base}/own-view`, {
        method: "PUT",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ own, version }),
      });
      turn((state) => kept(state, answer));
    } catch (error) {
      if (!(error instanceof ApiError && error.code === "changed-meanwhile")) {
        turn((state) => refused(state, error));
        return;
      }
      turn((state) => met(state, error.stands as Feedback));
      // Where only the teacher's part is another one, nothing is to be chosen.
      await keep();
    }
  }

  async function read(): Promise<void> {
    if (rest.childElementCount > 0) return;
    rest.append(h("p", { class: "waiting", role: "status" }, "Reading …"));
    page = await readPage([take], query, shell);
    const sheet = `#/students/${encodeURIComponent(player)}/takes/${encodeURIComponent(take)}/practice`;
    rest.replaceChildren(
      h(
        "p",
        { class: "take-ways no-print" },
        h("a", { class: "button main", href: sheet }, "Practice sheet, to play along with"),
      ),
      page.element,
    );
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

function drawing(
  state: OwnTake,
  { player, about }: { readonly player: string; readonly about: string },
  change: Change<OwnTake>,
  keep: () => void,
): TemplateResult {
  return html`<section class="sheet own-view no-print">
    <p><a class="button" href=${`#/students/${encodeURIComponent(player)}`}>Your page</a></p>
    <h1>${mayRead(state) ? "Your own view" : "Your own view first"}</h1>
    <p class="take-meta">${about}</p>
    <label>What went well, what not yet, what next?
      <textarea
        rows="4"
        name="own-view"
        .value=${state.draft}
        @input=${(event: Event) => change((now) => written(now, fieldText(event)))}
      ></textarea></label>
    ${state.theirs === null ? nothing : twoViews(state.draft, state.theirs, (text) => change((now) => settled(now, text)))}
    <div class="take-ways">
      <button type="button" class="main" ?disabled=${toSend(state) === null} @click=${keep}>
        ${state.sending ? "Being kept …" : mayRead(state) ? "Keep it" : "Keep it, and read on"}
      </button>
      ${
        mayRead(state) || isAskedFor(state)
          ? nothing
          : html`<button type="button" class="quiet" @click=${() => change(passedBy)}>Read without writing</button>`
      }
    </div>
    <p class="hint" role="status">${
      state.base.own === "" ? "" : unkept(state) ? "Not kept yet." : "Kept: your teacher sees it."
    }</p>
    ${state.refused === null ? nothing : refusalNote(state.refused)}
  </section>`;
}

/** Written in two windows at once: both texts stand until one is chosen. */
function twoViews(mine: string, theirs: string, choose: (text: string) => void): TemplateResult {
  const choice = (words: string, text: string) =>
    html`<button type="button" @click=${() => choose(text)}>${words}</button> `;
  return html`<div class="differing-one" role="alert">
    <p>Something else was written meanwhile, and is kept:</p>
    <p class="differing-text">${theirs === "" ? "(nothing: it was taken out)" : theirs}</p>
    <p>
      ${choice("Keep what I wrote here", mine)} ${theirs === "" ? nothing : choice("Keep that one", theirs)}
      ${theirs === "" ? nothing : choice("Keep both", `${theirs}\n\n${mine}`)}
    </p>
  </div>`;
}
