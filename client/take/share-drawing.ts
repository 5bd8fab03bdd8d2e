/** The panel of links to a take, as it is seen. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import type { ShareRow } from "../../server/contract/access.ts";
import { type Change, fieldText } from "../shell/drawn-from.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { freshWords, inForce, LENGTHS, type ShareState } from "./share-model.ts";

export interface ShareWays {
  readonly change: Change<ShareState>;
  readonly make: () => void;
  readonly end: (share: ShareRow) => void;
  /** Copies the address that the field shows. */
  readonly copy: (field: HTMLInputElement) => void;
}

/** What links open. */
export interface Linked {
  readonly title: string;
  readonly words: string;
  /** Address of the take as one file; null where there is none. */
  readonly file: string | null;
}

export const TAKE_LINKS: Linked = {
  title: "Share",
  words:
    "Who has a link reads this take without signing in: its notes and pictures, the findings with the teacher's remarks and the player's own view, the exercises, the recording itself, and the names of take and player. Nothing can be changed through it, and no other take is seen. It ends after the time that you choose, or when you end it. Where the player is a minor, ask first as your local rules for recordings of minors require, and leave the full name off.",
  file: null,
};

export const STUDENT_LINKS: Linked = {
  title: "The player's own page, behind a link",
  words:
    "Who has a link sees this player's own takes with findings and exercises, the lens and the lessons that wait, and writes the player's own view; nobody else's takes, no notes for the parents, and nothing else can be changed. It ends after the time that you choose, or when you end it. Where the player is a minor, ask first as your local rules require.",
  file: null,
};

export const shareDrawing = (state: ShareState, what: Linked, ways: ShareWays): TemplateResult => html`
  <summary>${what.title}</summary>
  <div class="share-body">
    <p class="hint">${what.words}</p>
    ${linkForm(state, ways)}
    <div class="share-made" aria-live="polite">
      ${state.fresh === null ? nothing : freshLink(state.fresh, ways.copy)}
    </div>
    <ul class="shares" aria-label="Links in force">
      ${state.shares?.length === 0 ? html`<li class="empty">No link is in force.</li>` : nothing}
      ${(state.shares ?? []).map((share) => link(share, () => ways.end(share)))}
    </ul>
    ${
      what.file === null
        ? nothing
        : html`<p>
            <a class="button" href=${what.file} download>Save as one file</a>
            <span class="hint">Opens anywhere without a network. It cannot be taken back once it is passed on.</span>
          </p>`
    }
    ${guard([state.refused], () => (state.refused === null ? nothing : refusalNote(state.refused)))}
  </div>`;

function linkForm({ name, days }: ShareState, { change, make }: ShareWays): TemplateResult {
  const submit = (event: Event) => {
    event.preventDefault();
    make();
  };
  const choose = (event: Event) =>
    change((now) => ({ ...now, days: LENGTHS[(event.target as HTMLSelectElement).selectedIndex]![0] }));
  return html`<form class="row" @submit=${submit}>
    <label>A link for
      <input name="share-name" autocomplete="off" placeholder="For whom" .value=${name}
        @input=${(event: Event) => change((now) => ({ ...now, name: fieldText(event) }))}></label>
    <select name="share-length" aria-label="How long the link is in force" @change=${choose}>
      ${LENGTHS.map(
        ([length, words]) =>
          html`<option value=${String(length ?? "")} .selected=${length === days}>${words}</option>`,
      )}
    </select>
    <button type="submit">Make a link</button>
  </form>`;
}

const link = (share: ShareRow, end: () => void): TemplateResult => html`<li data-share=${share.id}>
  <span>${share.name}</span><span class="faint">${inForce(share)}</span>
  <button type="button" class="quiet" aria-label="End the link ${share.name}" @click=${end}>End the link</button>
</li>`;

/** The address itself is shown this once; afterwards only that there is a link. */
function freshLink(address: string, copy: (field: HTMLInputElement) => void): TemplateResult {
  const press = ({ currentTarget }: Event) =>
    copy((currentTarget as HTMLElement).parentElement!.querySelector("input")!);
  return html`<div>
    <div class="row">
      <input class="share-address" readonly .value=${address} aria-label="The link">
      <button type="button" @click=${press}>Copy</button>
    </div>
    <p class="hint">${freshWords(address)}</p>
  </div>`;
}
