/** What can be done to all chosen takes at once, above the list. */
import { html, nothing, type TemplateResult } from "lit-html";
import { count } from "../../src/words/index.ts";
import type { TakeListState } from "./take-list-model.ts";
import { allShownChosen, chosenTags, chosenWords, type TakeAct } from "./together-model.ts";

export interface TogetherWays {
  readonly chooseShown: (on: boolean) => void;
  readonly together: (act: TakeAct) => void;
}

export function togetherDrawing(state: TakeListState, ways: TogetherWays): TemplateResult {
  const { chosen, under, rows } = state;
  return html`<div class="together">
    <label class="choice">
      <input type="checkbox" name="choose-shown" .checked=${allShownChosen(state)}
        @change=${(event: Event) => ways.chooseShown((event.target as HTMLInputElement).checked)}>
      Choose all ${rows.length} shown
    </label>
    <span class="take-facts" role="status">${chosenWords(state)}</span>
    ${
      chosen.size === 0 || under !== null
        ? nothing
        : html`
          ${field("move", "Move to", "Player", "known-players", (player) => ways.together({ kind: "move", player }))}
          ${field("rename", "Rename", "Title", null, (title) => ways.together({ kind: "rename", title }))}
          ${field("tag", "Add the tag", "Tag", null, (tag) => ways.together({ kind: "tag", tag }))}
          ${untagging(chosenTags(state), (tag) => ways.together({ kind: "untag", tag }))}
          <button type="button" @click=${() => ways.together({ kind: "delete" })}>Delete ${count(chosen.size, "take")}</button>
          <button type="button" class="quiet" @click=${() => ways.chooseShown(false)}>Choose none</button>`
    }
  </div>`;
}

/** A field with its button; nothing is done with an empty one. */
function field(
  name: string,
  words: string,
  label: string,
  list: string | null,
  run: (text: string) => void,
): TemplateResult {
  return html`<form class="together-field" @submit=${submitting(name, run)}>
    <input name=${name} aria-label=${label} placeholder=${label} list=${list ?? nothing} autocomplete="off" maxlength="60">
    <button type="submit">${words}</button>
  </form>`;
}

/** Takes one of the tags off that the chosen takes have; nothing where they have none. */
function untagging(tags: readonly string[], run: (tag: string) => void): TemplateResult | typeof nothing {
  if (tags.length === 0) return nothing;
  return html`<form class="together-field" @submit=${submitting("untag", run)}>
    <select name="untag" aria-label="Tag to take off">${tags.map((tag) => html`<option>${tag}</option>`)}</select>
    <button type="submit">Take the tag off</button>
  </form>`;
}

const submitting = (name: string, run: (text: string) => void) => (event: Event) => {
  event.preventDefault();
  const text = String(new FormData(event.target as HTMLFormElement).get(name) ?? "").trim();
  if (text !== "") run(text);
};
