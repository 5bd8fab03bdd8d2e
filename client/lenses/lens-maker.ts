/** The form by which a teacher makes a lens: measures with their units and bounds, how it is said, what is played. */
import { html, nothing, type TemplateResult } from "lit-html";
import { LENS_MEASURES, lensMeasure } from "../../src/lens/names.ts";
import { PRACTICE_KINDS } from "../../src/practice/kinds.ts";
import type { Change } from "../shell/drawn-from.ts";
import {
  type AskDraft,
  askAdded,
  askChanged,
  askRemoved,
  changed,
  exerciseAdded,
  exerciseChanged,
  exerciseRemoved,
  type LensDraft,
  missing,
  shownUnit,
} from "./lens-model.ts";

export function lensMaker(draft: LensDraft, change: Change<LensDraft>, keep: () => void): TemplateResult {
  const lacks = missing(draft);
  const submit = (event: Event) => {
    event.preventDefault();
    if (lacks === null) keep();
  };
  return html`<form class="lens-maker" novalidate @submit=${submit}>
    <div class="row">
      <label>Name <input name="lens-name" autocomplete="off" maxlength="80" .value=${draft.name}
        @input=${(event: Event) => change((now) => changed(now, { name: textOf(event) }))} /></label>
    </div>
    <label>What the student is to do
      <textarea name="lens-about" rows="2" maxlength="500" .value=${draft.about}
        @input=${(event: Event) => change((now) => changed(now, { about: textOf(event) }))}></textarea></label>
    <fieldset>
      <legend>What it asks for; the first is what the lens is about</legend>
      ${draft.asks.map((ask, i) => askRow(ask, i, draft, change))}
      <button type="button" class="quiet" @click=${() => change(askAdded)}>Another number</button>
    </fieldset>
    <fieldset>
      <legend>How it is said</legend>
      ${saidField("When reached", "reached", draft, change)}
      ${saidField("When partly reached", "partly", draft, change)}
      ${saidField("When not reached yet", "notYet", draft, change)}
    </fieldset>
    <fieldset>
      <legend>What is played for it</legend>
      ${draft.exercises.map((exercise, i) => exerciseRow(exercise, i, change))}
      <button type="button" class="quiet" @click=${() => change(exerciseAdded)}>Add an exercise</button>
    </fieldset>
    <p class="hint" role="status">${lacks ?? ""}</p>
    <button type="submit" class="main" ?disabled=${lacks !== null}>Keep the lens</button>
  </form>`;
}

function askRow(ask: AskDraft, i: number, draft: LensDraft, change: Change<LensDraft>): TemplateResult {
  const { unit, name, among } = lensMeasure(ask.measure);
  const of = among === null ? "" : ` of the ${among}`;
  const number = (label: string, field: "amount" | "partly") =>
    html`<label>${label} (${shownUnit(unit)}${of})
      <input class="short" inputmode="decimal" name=${`ask-${i}-${field}`} .value=${ask[field]}
        @input=${(event: Event) => change((now) => askChanged(now, i, { [field]: textOf(event) }))} /></label>`;
  return html`<div class="row" role="group" aria-label=${name}>
    <label class="wide">Number
      <select name=${`ask-${i}-measure`}
        @change=${(event: Event) =>
          change((now) =>
            askChanged(now, i, {
              measure: LENS_MEASURES[(event.target as HTMLSelectElement).selectedIndex]!.id,
            }),
          )}>
        ${LENS_MEASURES.map(
          (one) => html`<option value=${one.id} .selected=${one.id === ask.measure}>${one.name}</option>`,
        )}
      </select></label>
    <label>Bound
      <select name=${`ask-${i}-bound`}
        @change=${(event: Event) =>
          change((now) => askChanged(now, i, { bound: textOf(event) === "most" ? "most" : "least" }))}>
        <option value="least" .selected=${ask.bound === "least"}>at least</option>
        <option value="most" .selected=${ask.bound === "most"}>at most</option>
      </select></label>
    ${number("Reached", "amount")} ${number("Partly from", "partly")}
    ${
      draft.asks.length > 1
        ? html`<button type="button" class="quiet" @click=${() => change((now) => askRemoved(now, i))}>Take out</button>`
        : nothing
    }
  </div>`;
}

function saidField(
  label: string,
  field: "reached" | "partly" | "notYet",
  draft: LensDraft,
  change: Change<LensDraft>,
): TemplateResult {
  return html`<label>${label}
    <input name=${`said-${field}`} maxlength="300" .value=${draft[field]}
      @input=${(event: Event) => change((now) => changed(now, { [field]: textOf(event) }))} /></label>`;
}

function exerciseRow(
  { kind, text }: LensDraft["exercises"][number],
  i: number,
  change: Change<LensDraft>,
): TemplateResult {
  return html`<div class="row">
    <label>Exercise
      <select name=${`exercise-${i}-kind`}
        @change=${(event: Event) =>
          change((now) =>
            exerciseChanged(now, i, {
              kind: PRACTICE_KINDS[(event.target as HTMLSelectElement).selectedIndex]!,
            }),
          )}>
        ${PRACTICE_KINDS.map((one) => html`<option value=${one} .selected=${one === kind}>${one}</option>`)}
      </select></label>
    <label class="wide">How it is played
      <input name=${`exercise-${i}-text`} maxlength="500" .value=${text}
        @input=${(event: Event) => change((now) => exerciseChanged(now, i, { text: textOf(event) }))} /></label>
    <button type="button" class="quiet" @click=${() => change((now) => exerciseRemoved(now, i))}>Take out</button>
  </div>`;
}

const textOf = (event: Event): string => (event.target as HTMLInputElement).value;
