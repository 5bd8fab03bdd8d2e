/** The search as it is seen: what is looked for, where, and what was found. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import type { CorpusRow } from "../../server/contract/corpora.ts";
import type { IdeaRow, PlayerRow } from "../../server/contract/library.ts";
import type { Found } from "../../server/contract/pattern.ts";
import type { TakeRow } from "../../server/contract/takes.ts";
import type { MotifViewpoint } from "../../src/account.ts";
import { count } from "../../src/words/index.ts";
import type { KeyboardInput } from "../draw/keyboard-input.ts";
import { type Change, fieldText } from "../shell/drawn-from.ts";
import { VIEWPOINTS } from "../shell/ideas.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { foundHits } from "../views/found-hits.ts";
import { patternDrawing } from "./pattern-drawing.ts";
import { lookAt } from "./pattern-model.ts";
import { EDITS, type SearchState } from "./search-model.ts";

/** What can be chosen from. */
export interface SearchRows {
  readonly ideas: readonly IdeaRow[];
  readonly takes: readonly TakeRow[];
  readonly players: readonly PlayerRow[];
  readonly corpora: readonly CorpusRow[];
}

export interface SearchWays {
  readonly change: Change<SearchState>;
  readonly search: () => void;
  /** The form by which what was found is kept. */
  readonly keeper: (found: Found) => HTMLElement;
}

export function searchDrawing(
  state: SearchState,
  rows: SearchRows,
  board: KeyboardInput,
  { change, search, keeper }: SearchWays,
): TemplateResult {
  const { found, refused } = state;
  const submit = (event: Event) => {
    event.preventDefault();
    search();
  };
  const pattern: Parameters<typeof patternDrawing>[3] = (next) =>
    change((now) => ({ ...now, pattern: next(now.pattern) }));
  return html`<form class="sheet search-form" role="search" @submit=${submit}>
      <h1>Where is it played?</h1>
      ${patternDrawing(state.pattern, rows.ideas, board, pattern)}
      <div class="row">
        ${viewpointChoice(state, change)} ${editsChoice(state, change)} ${placeChoice(state, rows, change)}
        <button class="main" type="submit">Search</button>
      </div>
      ${guard([refused], () => (refused === null ? nothing : refusalNote(refused)))}
    </form>
    <section class="sheet search-result" aria-label="What was found" aria-busy=${String(state.searching)}
      ?hidden=${found === null}>
      ${guard([found], () => (found === null ? nothing : [foundHits(found), keeper(found)]))}
    </section>`;
}

const viewpointChoice = ({ pattern }: SearchState, change: Change<SearchState>): TemplateResult => html`<label
  >Listen for
  <select name="viewpoint" @change=${(event: Event) =>
    change((now) => ({ ...now, pattern: lookAt(now.pattern, fieldText(event) as MotifViewpoint) }))}>
    ${VIEWPOINTS.map(
      ({ id, words }) => html`<option value=${id} .selected=${id === pattern.viewpoint}>${words}</option>`,
    )}
  </select></label>`;

const editsChoice = ({ edits }: SearchState, change: Change<SearchState>): TemplateResult => html`<label
  >Notes that may differ
  <select name="edits" @change=${(event: Event) =>
    change((now) => ({ ...now, edits: Number(fieldText(event)) }))}>
    ${EDITS.map((n) => html`<option value=${n} .selected=${n === edits}>${n === 0 ? "none" : n}</option>`)}
  </select></label>`;

function placeChoice(
  { within }: SearchState,
  { takes, players, corpora }: SearchRows,
  change: Change<SearchState>,
): TemplateResult {
  const option = (value: string, words: string) =>
    html`<option value=${value} .selected=${value === within}>${words}</option>`;
  const takeWords = ({ id, title, player }: TakeRow) => [title ?? id, player].filter(Boolean).join(", ");
  return html`<label>Look in
    <select name="in" @change=${(event: Event) => change((now) => ({ ...now, within: fieldText(event) }))}>
      ${option("all", "all takes")}
      <optgroup label="Takes of a player">
        ${players.map(({ id, name }) => option(`player:${id}`, name))}
      </optgroup>
      <optgroup label="A corpus">
        ${corpora.map((row) => option(`corpus:${row.id}`, `${row.name}, ${count(row.takes, "take")}`))}
      </optgroup>
      <optgroup label="One take">${takes.map((row) => option(`take:${row.id}`, takeWords(row)))}</optgroup>
    </select></label>`;
}
