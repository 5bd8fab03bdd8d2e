/** All lenses: the built-in ones to read, the teacher's own to take out, and the form that makes one. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { LensRow } from "../../server/contract/library.ts";
import type { Lens } from "../../src/account.ts";
import { LENSES } from "../../src/lens/built-in.ts";
import { lensMeasure, lensValue } from "../../src/lens/names.ts";
import { printedText } from "../findings/finding-words.ts";
import { readLenses } from "../player/player-api.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { lensMaker } from "./lens-maker.ts";
import { draftFrom, type LensDraft, lensOf, NEW_LENS } from "./lens-model.ts";

interface LensesState {
  readonly own: readonly LensRow[];
  readonly draft: LensDraft;
  readonly refused: unknown;
}

export const lensesPage: PageMaker = async (_parameters, _query, shell) => {
  const host = h("div", { class: "stack" });
  const first: LensesState = { own: await readLenses(), draft: NEW_LENS, refused: null };
  const drawing = (now: LensesState): TemplateResult => html`
    <section class="sheet">
      <h1>Lenses</h1>
      <p class="lead">
        A lens is what teacher and student work on for some weeks. Findings open with it: reached, partly, not yet, with
        places to hear; the practice sheet begins with its exercises. It is set on a player's page, with its day.
      </p>
      <h2 class="small-head">Built in</h2>
      ${LENSES.map((lens) => card(lens, html`${pattern(lens)}`))}
    </section>
    <section class="sheet">
      <h2>Your own</h2>
      ${now.own.length === 0 ? html`<p class="empty">None yet.</p>` : nothing}
      ${now.own.map((row) => card({ ...row.lens, name: row.name }, html`${pattern(row.lens)}${takeOut(row)}`))}
    </section>
    <section class="sheet">
      <h2>Make a lens</h2>
      ${now.refused === null ? nothing : refusalNote(now.refused)}
      ${lensMaker(
        now.draft,
        (next) => change((all) => ({ ...all, draft: next(all.draft) })),
        () => void keep(),
      )}
    </section>`;

  const pattern = (lens: Lens) =>
    html`<button type="button" class="quiet" @click=${() => change((now) => ({ ...now, draft: draftFrom(lens) }))}>
      Take as a pattern
    </button>`;

  const takeOut = (row: LensRow) =>
    row.yours
      ? html`<button type="button" class="quiet" @click=${() => void remove(row)}>Take out</button>`
      : html`<span class="hint">Another teacher's</span>`;

  const { state, change } = drawnFrom(host, first, drawing);

  async function keep(): Promise<void> {
    const lens = lensOf(state().draft);
    try {
      await fetchJson<LensRow>("/lenses", sent("POST", { name: lens.name, lens }));
      const own = await readLenses();
      change((now) => ({ ...now, own, draft: NEW_LENS, refused: null }));
      shell.notify(`“${lens.name}” is kept, and can be set on a player's page.`);
    } catch (error) {
      change((now) => ({ ...now, refused: error }));
    }
  }

  async function remove({ id, name }: LensRow): Promise<void> {
    const call = async (path: string, method: string, words: string, undo?: () => void) => {
      try {
        await fetchJson<unknown>(path, { method });
        const own = await readLenses();
        change((now) => ({ ...now, own }));
        shell.notify(words, undo && { label: "Undo", run: undo });
      } catch (error) {
        change((now) => ({ ...now, refused: error }));
      }
    };
    await call(`/lenses/${id}`, "DELETE", `“${name}” is taken out; players who have it keep it.`, () => {
      void call(`/lenses/${id}/restore`, "POST", `“${name}” is back.`);
    });
  }

  return { title: "Lenses", element: host };
};

function card(lens: Lens, tools: TemplateResult): TemplateResult {
  return html`<article class="lens-card">
    <h3>${lens.name}</h3>
    <p>${lens.about}</p>
    <ul class="words">
      ${lens.asks.map((ask) => {
        const { name, unit } = lensMeasure(ask.measure);
        const bound =
          ask.least !== null
            ? `at least ${lensValue(ask.least, unit)}`
            : `at most ${lensValue(ask.most!, unit)}`;
        return html`<li>${printedText(`${name}: ${bound}, partly from ${lensValue(ask.partly, unit)}`)}</li>`;
      })}
    </ul>
    <p class="finding-tools">${tools}</p>
  </article>`;
}

const sent = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});
