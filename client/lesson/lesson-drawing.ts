/** What is chosen of a lesson, and who gets it. */
import { html, nothing, type TemplateResult } from "lit-html";
import { LEVELS } from "../../src/practice/levels.ts";
import type { Change } from "../shell/drawn-from.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import {
  allTaken,
  chosen,
  handedWords,
  handingOf,
  type LessonChoice,
  type LessonState,
  playerTaken,
  shapeTaken,
} from "./lesson-model.ts";

export interface LessonWays {
  readonly change: Change<LessonState>;
  readonly prepare: () => void;
  readonly handOut: () => void;
  /** The fields of the chart, which keep themselves. */
  readonly chart: HTMLElement;
}

export function choosing(state: LessonState, ways: LessonWays): TemplateResult {
  const { change, prepare, chart } = ways;
  const submit = (event: Event) => {
    event.preventDefault();
    prepare();
  };
  return html`<form class="sheet no-print" @submit=${submit}>
    <h1>A lesson without a take</h1>
    <p class="lead">
      Choose what is played on and what is worked on: placements, exercises in steps of tempo, call and answer, and a
      chorus to improvise on, to print, to hear and to play along with.
    </p>
    ${chart}
    <fieldset>
      <legend>The lesson</legend>
      <div class="row">
        ${select("Level", "level", LEVELS, state, change)}
        ${select(
          "Eighths",
          "feel",
          [
            { id: "swing", name: "swung" },
            { id: "even", name: "even" },
          ],
          state,
          change,
        )}
        ${select("Lens", "lens", [{ id: "", name: "no lens" }, ...state.lenses], state, change)}
      </div>
    </fieldset>
    <fieldset>
      <legend>Hand shapes, the first one chosen leads</legend>
      <div class="choices">
        ${state.shapeNames.map((name) =>
          box("lesson-shape", name, state.choice.shapes.includes(name), (taken) =>
            change((now) => shapeTaken(now, name, taken)),
          ),
        )}
      </div>
    </fieldset>
    <div class="take-ways">
      <button class="main" type="submit" ?disabled=${state.busy !== null}>
        ${state.busy === "reading" ? "Being prepared …" : "Prepare the lesson"}
      </button>
    </div>
    ${state.refused === null ? nothing : refusalNote(state.refused)}
  </form>`;
}

/** Who gets the lesson that is seen. */
export function handing(state: LessonState, { change, handOut }: LessonWays): TemplateResult {
  const every = state.players.length > 0 && state.chosen.length === state.players.length;
  return html`<section class="sheet no-print hand-out">
    <h2>Hand it out</h2>
    ${
      state.players.length === 0
        ? html`<p class="empty">There is no player yet. A player is there as soon as a take names one.</p>`
        : html`<div class="choices">
            ${box("hand-all", "the whole class", every, () => change(allTaken))}
            ${state.players.map(({ id, name }) =>
              box("hand-to", name, state.chosen.includes(id), (taken) =>
                change((now) => playerTaken(now, id, taken)),
              ),
            )}
          </div>`
    }
    <div class="row">
      <label>On <input
        type="date"
        name="handed-on"
        .value=${state.handedOn}
        @input=${(event: Event) => change((now) => ({ ...now, handedOn: textOf(event) }))}
      /></label>
      <button
        type="button"
        class="main"
        ?disabled=${handingOf(state) === null || state.busy !== null}
        @click=${handOut}
      >
        ${state.busy === "handing out" ? "Being handed out …" : "Hand out"}
      </button>
    </div>
    <p role="status">
      ${
        state.handed.length === 0
          ? ""
          : html`${handedWords(state.handed)}
              ${state.handed.map(({ id, name }) => html`<a class="button" href=${`#/players/${id}`}>${name}</a> `)}`
      }
    </p>
  </section>`;
}

type Choice = Exclude<keyof LessonChoice, "shapes">;

function select(
  label: string,
  name: Choice,
  options: readonly { readonly id: string; readonly name: string }[],
  { choice }: LessonState,
  change: Change<LessonState>,
): TemplateResult {
  return html`<label>${label}
    <select name=${name} @change=${(event: Event) => change((now) => chosen(now, { [name]: textOf(event) }))}>
      ${options.map(
        (one) => html`<option value=${one.id} .selected=${one.id === choice[name]}>${one.name}</option>`,
      )}
    </select></label>`;
}

function box(name: string, words: string, checked: boolean, take: (taken: boolean) => void): TemplateResult {
  return html`<label class="choice"
    ><input
      type="checkbox"
      name=${name}
      .checked=${checked}
      @change=${(event: Event) => take((event.target as HTMLInputElement).checked)}
    />
    ${words}</label
  >`;
}

const textOf = (event: Event): string => (event.target as HTMLInputElement | HTMLSelectElement).value;
