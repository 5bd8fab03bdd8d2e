/** The lens at the head of the feedback page: how far it is reached, where to hear it, where it was open, what to play. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { LensOutcome } from "../../src/account.ts";
import { barWords, printedText } from "./finding-words.ts";
import { LENS_STATE_WORDS, type LensPlaces, lensJudged, lensPlaces } from "./lens-words.ts";

/** What is done with the places of a number: "Listen", or "Show". */
export interface PlacesAction {
  readonly name: string;
  /** Chooses the notes under this id. */
  run(id: string): void;
}

/** @param sheet address of the practice sheet; null where there is none */
export function lensPanel(lens: LensOutcome, sheet: string | null, action: PlacesAction): TemplateResult {
  const places = lensPlaces(lens);
  return html`<section class="finding-group lens-panel" data-state=${lens.state} aria-labelledby="lens-name">
    <p class="finding-heading">The lens</p>
    <h2 id="lens-name">${lens.name}</h2>
    <p class="lens-verdict">
      <strong>${LENS_STATE_WORDS[lens.state]}.</strong>
      ${lens.state === "cannot be told" ? "" : printedText(lens.text)}
    </p>
    <ul class="lens-asks">
      ${lens.asks.map((ask, i) => askItem(ask, places[i]!, action))}
    </ul>
    ${exercises(lens, sheet)}
    <details class="finding-judged no-print">
      <summary>How this is judged</summary>
      ${lens.asks.map((ask) => html`<p>${[ask.text, lensJudged(ask)].filter(Boolean).join(" ")}</p>`)}
    </details>
  </section>`;
}

function askItem(
  ask: LensOutcome["asks"][number],
  { heard, open }: LensPlaces,
  action: PlacesAction,
): TemplateResult {
  const way = (name: string, { id, evidence }: LensPlaces["heard"]) =>
    evidence.length === 0
      ? nothing
      : html`<button type="button" class="quiet no-print" @click=${() => action.run(id)}>${name}</button>`;
  const where = [barWords(heard), barWords(open).replace(/^Hear it in/, "Open in")].filter(Boolean);
  return html`<li data-state=${ask.state}>
    <span class="lens-ask-state">${LENS_STATE_WORDS[ask.state]}:</span> ${ask.text}
    ${where.length === 0 ? nothing : html`<span class="finding-bars">${where.join(". ")}.</span>`}
    <span class="finding-tools">
      ${way(action.name, heard)}${way(`${action.name} where it was open`, open)}
    </span>
  </li>`;
}

function exercises(lens: LensOutcome, sheet: string | null): TemplateResult | typeof nothing {
  if (lens.exercises.length === 0) return nothing;
  return html`<p class="finding-practice">
    <strong>To play:</strong> ${lens.exercises.map(({ title }) => title).join("; ")}.
    ${sheet === null ? nothing : html`<a class="no-print" href=${sheet}>See the exercises</a>`}
  </p>`;
}
