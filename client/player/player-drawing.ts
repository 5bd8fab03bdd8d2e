/** A player's page as it is seen: the lens and its weeks, then what is usual, notes, consent, and the player's own data. */
import { html, nothing, type TemplateResult } from "lit-html";
import { printedText } from "../findings/finding-words.ts";
import { LENS_STATE_WORDS } from "../findings/lens-words.ts";
import { HAND_SIZES } from "../parts/hand-sizes.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";
import type { HandSize } from "./player-api.ts";
import {
  addingNote,
  asked,
  deleting,
  deletingNote,
  deletionWords,
  FIELDS,
  keepingUsual,
  lensChoices,
  lensWeeks,
  mergeWords,
  merging,
  notingConsent,
  type PlayerAction,
  type PlayerDraft,
  type PlayerState,
  renaming,
  settingLens,
  shapeTaken,
  takingConsentBack,
  takingLensBack,
  unsentFields,
  written,
} from "./player-model.ts";

export interface PlayerWays {
  readonly change: (next: (state: PlayerState) => PlayerState) => void;
  readonly run: (action: PlayerAction) => void;
}

type Draw = (state: PlayerState, ways: PlayerWays) => TemplateResult;

export const playerDrawing: Draw = (state, ways) => html`
  ${lens(state, ways)}
  <section class="sheet player-data">
    <h2>About ${state.page.name}</h2>
    <p class="hint" role="status">${state.sending ?? ""}</p>
    ${state.refused === null ? nothing : refusalNote(state.refused)}
    ${fold(state, "What is usual: hand, shapes, chart", FIELDS.usual, usual(state, ways))}
    ${fold(state, `Notes for the parents (${state.page.notes.length})`, FIELDS.note, notes(state, ways))}
    ${fold(state, consentTitle(state), FIELDS.consent, consent(state, ways))}
    ${fold(state, "Name, and one player under two names", FIELDS.names, names(state, ways))}
    ${fold(state, "Export and deletion", [], data(state, ways))}
  </section>`;

const lens: Draw = (state, ways) => {
  const weeks = lensWeeks(state);
  const { draft, page } = state;
  return html`<section class="sheet player-lens">
    <h2>The lens</h2>
    ${
      page.lenses.length === 0
        ? html`<p class="empty">No lens is set. A lens is what you work on these weeks: findings open with it, and the practice sheet begins with its exercises.</p>`
        : html`<ul class="words">
            ${page.lenses.map(
              ({ since, lens: one }) =>
                html`<li>
                  Since ${day(since)}: ${one?.name ?? "no lens"}
                  ${button("Take back", takingLensBack(since), state, ways)}
                </li>`,
            )}
          </ul>`
    }
    ${
      weeks.length === 0
        ? nothing
        : html`<div class="table-scroll lens-scroll" tabindex="0" role="group" aria-label="The lens, take by take">
            <table class="lens-weeks">
              <thead>
                <tr><th scope="col">Take</th><th scope="col">Lens</th><th scope="col">Reached</th><th scope="col">Numbers</th></tr>
              </thead>
              <tbody>
                ${weeks.map(
                  (week) =>
                    html`<tr>
                      <th scope="row"><a href=${`#/takes/${week.take}/findings`}>${week.title}</a>, ${day(week.date)}</th>
                      <td>${week.lens}</td>
                      <td data-state=${week.state}>${LENS_STATE_WORDS[week.state]}</td>
                      <td>${week.numbers.join(" ")}</td>
                    </tr>`,
                )}
              </tbody>
            </table>
          </div>`
    }
    ${
      state.lens === null || weeks.length < 2
        ? nothing
        : html`<ul class="words">${state.lens.sentences.map((sentence) => html`<li>${printedText(sentence)}</li>`)}</ul>`
    }
    <div class="row no-print">
      <label>From now on
        <select name="lens" @change=${(event: Event) => ways.change((now) => written(now, { lens: textOf(event) }))}>
          <option value="" .selected=${draft.lens === ""}>no lens</option>
          ${lensChoices(state).map(
            ({ id, name }) => html`<option value=${id} .selected=${id === draft.lens}>${name}</option>`,
          )}
        </select></label>
      ${field("Since", "since", "date", state, ways)}
      ${button("Set the lens", settingLens(state), state, ways, "main")}
    </div>
    <p class="no-print"><a class="button" href="#/lenses">All lenses, and a lens of your own</a></p>
  </section>`;
};

const SIZES: readonly (readonly [HandSize | "", string])[] = [["", "not known"], ...HAND_SIZES];

const usual: Draw = (state, ways) => html`
  <label>Hand size
    <select
      name="hand-size"
      @change=${(event: Event) => ways.change((now) => written(now, { handSize: textOf(event) as HandSize | "" }))}
    >
      ${SIZES.map(([size, words]) => html`<option value=${size} .selected=${size === state.draft.handSize}>${words}</option>`)}
    </select></label>
  <fieldset>
    <legend>Shapes in use</legend>
    <div class="choices">
      ${state.shapeNames.map(
        (name) =>
          html`<label class="choice"
            ><input
              type="checkbox"
              name="usual-shape"
              .checked=${state.draft.shapes.includes(name)}
              @change=${(event: Event) =>
                ways.change((now) => shapeTaken(now, name, (event.target as HTMLInputElement).checked))}
            />
            ${name}</label
          >`,
      )}
    </div>
  </fieldset>
  ${area("Usual chart, as text", "chart", 4, state, ways)}
  <p class="hint">The next take of ${state.page.name} begins with these, unless it is told otherwise. A hand size decides only what is told as wide.</p>
  <p>${button("Keep what is usual", keepingUsual(state), state, ways, "plain")}</p>`;

const notes: Draw = (state, ways) => html`
  ${
    state.page.notes.length === 0
      ? html`<p class="empty">No note yet.</p>`
      : html`<ul class="words">
          ${state.page.notes.map(
            ({ id, date, text }) =>
              html`<li><strong>${day(date)}.</strong> ${text} ${button("Delete", deletingNote(id), state, ways)}</li>`,
          )}
        </ul>`
  }
  ${area("A note for the parents", "note", 3, state, ways)}
  <div class="row">
    ${field("Of", "noteDate", "date", state, ways)} ${button("Keep the note", addingNote(state), state, ways, "plain")}
  </div>`;

function consentTitle({ page: { consent: given } }: PlayerState): string {
  return given === null ? "Consent: not noted" : `Consent: given on ${day(given.date)} by ${given.by}`;
}

const consent: Draw = (state, ways) => html`
  <p class="hint">A recording of a pupil is personal data. Ask for consent as your local rules require, and note who gave it and when.</p>
  <div class="row">
    ${field("Given by", "consentBy", "text", state, ways)} ${field("On", "consentDate", "date", state, ways)}
    ${button("Note the consent", notingConsent(state), state, ways, "plain")}
    ${state.page.consent === null ? nothing : button("Take it back", takingConsentBack, state, ways)}
  </div>`;

const names: Draw = (state, ways) => html`
  <div class="row">
    ${field("Name", "name", "text", state, ways)} ${button("Rename", renaming(state), state, ways, "plain")}
  </div>
  <div class="row">
    <label>The same player as
      <select name="into" @change=${(event: Event) => ways.change((now) => written(now, { into: textOf(event) }))}>
        <option value="" .selected=${state.draft.into === ""}>nobody</option>
        ${state.others.map(
          ({ id, name }) => html`<option value=${id} .selected=${id === state.draft.into}>${name}</option>`,
        )}
      </select></label>
    <button
      type="button"
      ?disabled=${merging(state) === null || state.sending !== null}
      @click=${() => ways.change((now) => asked(now, "merge"))}
    >
      Make one of the two
    </button>
  </div>
  ${state.asks === "merge" ? confirmation(mergeWords(state), "Yes, make one of the two", merging(state), state, ways) : nothing}`;

const data: Draw = (state, ways) => html`
  <div class="row">
    <a class="button" href=${`/api/players/${encodeURIComponent(state.page.id)}/export.zip`} download>Export everything</a>
    <span class="hint">This page, every take with its recording, account and feedback, links, and what waits in jobs, as one zip.</span>
  </div>
  <p>
    <button
      type="button"
      ?disabled=${state.sending !== null}
      @click=${() => ways.change((now) => asked(now, "delete"))}
    >
      Delete ${state.page.name}
    </button>
  </p>
  ${state.asks === "delete" ? confirmation(deletionWords(state), `Yes, delete ${state.page.name}`, deleting, state, ways) : nothing}`;

function confirmation(
  words: string,
  yes: string,
  action: PlayerAction | null,
  state: PlayerState,
  ways: PlayerWays,
): TemplateResult {
  return html`<div class="confirmation" role="group" aria-label="Before it is done">
    <p>${words}</p>
    <div class="row">
      ${button(yes, action, state, ways, "main")}
      <button type="button" class="quiet" @click=${() => ways.change((now) => asked(now, null))}>Leave it</button>
    </div>
  </div>`;
}

/** Open from the start where something half written came back; what is not kept yet is said while it is not. */
function fold(
  state: PlayerState,
  title: string,
  fields: readonly (keyof PlayerDraft)[],
  inside: TemplateResult,
): TemplateResult {
  const unsent = unsentFields(state);
  return html`<details class="player-fold no-print" ?open=${fields.some((field) => state.back.includes(field))}>
    <summary>
      ${title}${fields.some((field) => unsent.includes(field)) ? html`<strong class="not-sent"> · not kept yet</strong>` : nothing}
    </summary>
    <div class="stack">${inside}</div>
  </details>`;
}

function button(
  name: string,
  action: PlayerAction | null,
  { sending }: PlayerState,
  { run }: PlayerWays,
  kind = "quiet",
): TemplateResult {
  return html`<button
    type="button"
    class=${kind}
    ?disabled=${action === null || sending !== null}
    @click=${() => {
      if (action !== null) run(action);
    }}
  >
    ${name}
  </button>`;
}

type TextField = Exclude<keyof PlayerDraft, "shapes" | "handSize" | "lens" | "into">;

function field(
  label: string,
  name: TextField,
  type: "text" | "date",
  { draft }: PlayerState,
  { change }: PlayerWays,
): TemplateResult {
  return html`<label>${label}
    <input
      type=${type}
      name=${name}
      autocomplete="off"
      .value=${draft[name]}
      @input=${(event: Event) => change((now) => written(now, { [name]: textOf(event) }))}
  /></label>`;
}

function area(
  label: string,
  name: TextField,
  rows: number,
  { draft }: PlayerState,
  { change }: PlayerWays,
): TemplateResult {
  return html`<label>${label}
    <textarea
      name=${name}
      rows=${rows}
      .value=${draft[name]}
      @input=${(event: Event) => change((now) => written(now, { [name]: textOf(event) }))}
    ></textarea></label>`;
}

const textOf = (event: Event): string => (event.target as HTMLInputElement | HTMLTextAreaElement).value;
