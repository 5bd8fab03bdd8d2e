/** The list of takes as it is seen: a field to type in, the order, and takes in a list of bounded height. */
import { html, nothing, type TemplateResult } from "lit-html";
import { repeat } from "lit-html/directives/repeat.js";
import type { TakeRow } from "../../server/contract/takes.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";
import {
  foundWords,
  groupOf,
  moreWords,
  TAKE_SORTS,
  type TakeListState,
  type TakeSort,
  takeFacts,
  takeName,
} from "./take-list-model.ts";
import { togetherDrawing } from "./together-drawing.ts";
import type { TakeAct } from "./together-model.ts";

export interface TakeListWays {
  readonly typed: (text: string) => void;
  readonly sorted: (sort: TakeSort) => void;
  readonly more: () => void;
  readonly remove: (row: TakeRow) => void;
  readonly choose: (row: TakeRow, on: boolean) => void;
  readonly chooseShown: (on: boolean) => void;
  readonly together: (act: TakeAct) => void;
}

export const takeListDrawing = (state: TakeListState, ways: TakeListWays): TemplateResult => html`
  <div class="row take-search">
    <label>Find
      <input type="search" name="q" placeholder="player, title, chart, date, tag" autocomplete="off" maxlength="200"
        .value=${state.typed} @input=${(event: Event) => ways.typed((event.target as HTMLInputElement).value)}>
    </label>
    <label>Order
      <select name="sort" @change=${(event: Event) => ways.sorted((event.target as HTMLSelectElement).value as TakeSort)}>
        ${Object.entries(TAKE_SORTS).map(
          ([sort, words]) => html`<option value=${sort} ?selected=${sort === state.sort}>${words}</option>`,
        )}
      </select>
    </label>
    <p class="faint" role="status">${foundWords(state)}</p>
  </div>
  ${state.refused === null ? nothing : refusalNote(state.refused)}
  ${
    state.rows.length === 0 && state.typed === ""
      ? html`<p class="empty">There is no take yet. Drop a file above, or record one from a keyboard.</p>`
      : nothing
  }
  ${state.rows.length === 0 ? nothing : togetherDrawing(state, ways)}
  <div class="take-scroll">
    <ul class="take-rows">${repeat(
      state.rows,
      ({ id }) => id,
      (row, i) => html`${head(state, i)}${line(row, state.chosen.has(row.id), ways)}`,
    )}</ul>
    ${
      state.next === null
        ? nothing
        : html`<button type="button" class="take-more" @click=${ways.more}>${moreWords(state)}</button>`
    }
  </div>`;

/** The name of a group, before its first take. */
function head({ rows, sort }: TakeListState, i: number): TemplateResult | typeof nothing {
  const group = groupOf(rows[i]!, sort);
  return i > 0 && groupOf(rows[i - 1]!, sort) === group
    ? nothing
    : html`<li class="take-group">${group}</li>`;
}

const line = (row: TakeRow, chosen: boolean, ways: TakeListWays) => html`<li>
  <label class="pick">
    <input type="checkbox" name="chosen" value=${row.id} aria-label="Choose ${takeName(row)}" .checked=${chosen}
      @change=${(event: Event) => ways.choose(row, (event.target as HTMLInputElement).checked)}>
  </label>
  <a class="take-link" href="#/takes/${row.id}">${takeName(row)}</a>
  <span class="take-facts">${takeFacts(row)}</span>
  <span class="take-date">${day(row.date)}</span>
  ${row.demo ? html`<span class="tag">demo</span>` : nothing}
  <button type="button" class="quiet" aria-label="Delete ${takeName(row)}" @click=${() => ways.remove(row)}>Delete</button>
</li>`;
