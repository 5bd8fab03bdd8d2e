/** Beside the picture: what is wrong with the selected note, or with the chords of the selected bar, is put right. */
import { html, nothing, render, type TemplateResult } from "lit-html";
import type { AccountNote } from "../../src/account.ts";
import { count, withAccidentals } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import {
  addAnswer,
  chordAnswer,
  fingerAnswers,
  moveAnswer,
  noteAnswers,
  pitchAnswers,
  putRightSoFar,
  typedBar,
} from "./correct-model.ts";
import type { Answer } from "./question-model.ts";

type Send = (answer: Answer) => unknown;

export interface CorrectMenu {
  readonly element: HTMLElement;
  /** Whether the list of what was put right is unfolded. */
  listed(): boolean;
  end(): void;
}

export function correctMenu(
  index: AccountIndex,
  store: SelectionStore,
  listed: boolean,
  send: Send,
): CorrectMenu {
  const element = h("section", { class: "correct no-print", "aria-label": "Put right" });
  const draw = () => {
    const { selection } = store;
    const note = selection.kind === "note" ? index.note.get(selection.note) : undefined;
    render(
      html`${note === undefined ? nothing : noteMenu(index, note, send)}
      ${selection.kind === "bar" && isThere(index, selection) ? barMenu(index, selection.bar, send) : nothing}${soFar(index, listed, send)}`,
      element,
    );
  };
  const end = store.watch((change) => {
    if (change === "selection") draw();
  });
  draw();
  return { element, end, listed: () => element.querySelector<HTMLDetailsElement>(".so-far")?.open ?? false };
}

/** Whether the take has the bar, in the chorus that is named. */
const isThere = (index: AccountIndex, { chorus }: { readonly chorus: number | null }): boolean =>
  chorus === null || index.choruses.includes(chorus);

function noteMenu(index: AccountIndex, note: AccountNote, send: Send): TemplateResult {
  const { analysis } = index;
  const button = (answer: Answer) =>
    html`<button type="button" @click=${() => send(answer)}>${answer.label}</button>`;
  const group = (name: string, answers: readonly Answer[]) =>
    html`<div class="answers named" role="group" aria-label=${name}>
      <span class="answers-name">${name}</span><span class="answers-all">${answers.map(button)}</span>
    </div>`;
  return html`<details>
    <summary>Put ${withAccidentals(note.spelling)} right</summary>
    <div class="correct-body">
      ${group("This note", noteAnswers(analysis, note))}${group("Finger", fingerAnswers(analysis, note))}
      ${group("Key", pitchAnswers(analysis, note, index.keyName))}
      ${analysis.source.format === "sound" ? moving(index, note, send) : nothing} ${adding(index, note, send)}
    </div>
  </details>`;
}

/** Of a recording a note may have been heard too soon or too late. */
function moving(index: AccountIndex, note: AccountNote, send: Send): TemplateResult {
  const move = (event: SubmitEvent) => {
    event.preventDefault();
    const given = new FormData(event.target as HTMLFormElement);
    send(moveAnswer(index.analysis, note, Number(given.get("moved-to"))));
  };
  return html`<form class="answers" @submit=${move}>
    <label>
      Begins at
      <input type="number" name="moved-to" min="0" step="0.01" required .value=${note.onset.toFixed(2)} />
      seconds
    </label>
    <button>Move it</button>
  </form>`;
}

/** Keys that can be added: an octave and a half to either side of the note. */
const AROUND = 18;

function adding(index: AccountIndex, note: AccountNote, send: Send): TemplateResult {
  const add = (event: SubmitEvent) => {
    event.preventDefault();
    const given = new FormData(event.target as HTMLFormElement);
    const place = given.get("added-place") === "with" ? "with" : "after";
    send(addAnswer(index.analysis, note, Number(given.get("added-key")), place, index.keyName));
  };
  const keys = Array.from({ length: 2 * AROUND + 1 }, (_, i) => note.pitch + AROUND - i).filter(
    (pitch) => pitch >= 0 && pitch <= 127,
  );
  return html`<form class="answers" @submit=${add}>
    <label>
      Add
      <select name="added-key">
        ${keys.map((pitch) => html`<option value=${pitch} ?selected=${pitch === note.pitch - 1}>${index.keyName(pitch)}</option>`)}
      </select>
    </label>
    <label>
      <span class="visually-hidden">Where</span>
      <select name="added-place">
        <option value="after">after this note</option>
        <option value="with">together with it</option>
      </select>
    </label>
    <button type="submit">Add it</button>
  </form>`;
}

function barMenu(index: AccountIndex, bar: number, send: Send): TemplateResult | typeof nothing {
  const now = typedBar(index.analysis, bar);
  if (now === null) return nothing;
  const change = (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const field = form.elements.namedItem("bar-chords") as HTMLInputElement;
    const trouble = form.querySelector<HTMLElement>(".hint")!;
    try {
      send(chordAnswer(index.analysis, bar, field.value));
      trouble.textContent = "";
    } catch (error) {
      trouble.textContent = (error as Error).message;
    }
  };
  return html`<form class="answers" @submit=${change}>
    <label>Chords of bar ${bar} <input name="bar-chords" .value=${now} autocomplete="off" required /></label>
    <button type="submit">Change</button>
    <p class="hint" role="status"></p>
  </form>`;
}

function soFar(index: AccountIndex, listed: boolean, send: Send): TemplateResult | typeof nothing {
  const list = putRightSoFar(index.analysis);
  if (list.length === 0) return nothing;
  return html`<details class="so-far" ?open=${listed}>
    <summary>Put right: ${count(list.length, "note")}</summary>
    <ul>
      ${list.map(({ place, text, back }) => html`<li>${place === null ? "" : `${place}. `}${text} <button type="button" class="quiet" @click=${() => send(back)}>Take back</button></li>`)}
    </ul>
  </details>`;
}
