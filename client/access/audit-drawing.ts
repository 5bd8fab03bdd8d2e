/** Who read and wrote what, as a table. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import type { AuditEntry } from "../../server/contract/audit.ts";
import { type Change, fieldText } from "../shell/drawn-from.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import type { Named } from "./access-model.ts";
import {
  type AuditChoice,
  type AuditState,
  aboutChoices,
  timeWords,
  wayTo,
  whatWords,
  whoWords,
} from "./audit-model.ts";

export interface AuditWays {
  readonly change: Change<AuditState>;
  readonly choose: (part: Partial<AuditChoice>) => void;
  readonly more: () => void;
}

export const auditDrawing = (state: AuditState, ways: AuditWays): TemplateResult => html`
  <section class="sheet">
    <h1>Who read and wrote what</h1>
    <p class="lead">
      Every request about takes, players, corpora, tokens and backups, the newest first. The store keeps it by ids alone;
      names stand here as they are now, and what was deleted has none.
    </p>
    <div class="row">
      ${picker("About", "about", state.choice.about, "everybody", aboutChoices(state), ways)}
      ${picker("By", "token", state.choice.token, "anybody", state.tokens, ways)}
      ${picker("Done", "action", state.choice.action, "read or written", ACTIONS, ways)}
    </div>
    ${guard([state.refused], () => (state.refused === null ? nothing : refusalNote(state.refused)))}
    <div aria-busy=${String(state.reading)}>${table(state, ways)}</div>
    ${
      state.next === null
        ? nothing
        : html`<p><button type="button" ?disabled=${state.reading} @click=${ways.more}>Show older ones</button></p>`
    }
    <p><a class="button" href="#/access">Who may see what</a></p>
  </section>`;

const ACTIONS: readonly Named[] = [
  { id: "read", name: "read" },
  { id: "write", name: "written" },
];

const picker = (
  label: string,
  name: keyof AuditChoice,
  value: string,
  all: string,
  options: readonly Named[],
  { choose }: AuditWays,
): TemplateResult => html`<label>${label}
  <select name=${`audit-${name}`} @change=${(event: Event) => choose({ [name]: fieldText(event) })}>
    <option value="" .selected=${value === ""}>${all}</option>
    ${options.map((one) => html`<option value=${one.id} .selected=${one.id === value}>${one.name}</option>`)}
  </select></label>`;

function table({ entries, reading }: AuditState, { choose }: AuditWays): TemplateResult {
  if (entries.length === 0) {
    return html`<p class="empty">${reading ? "Reading …" : "Nothing of that is noted."}</p>`;
  }
  return html`<div class="table-scroll" tabindex="0" role="group" aria-label="Requests, the newest first">
    <table class="audit-table">
      <thead>
        <tr><th scope="col">When</th><th scope="col">Who</th><th scope="col">What</th><th scope="col">About</th></tr>
      </thead>
      <tbody>${entries.map((entry) => row(entry, choose))}</tbody>
    </table>
  </div>`;
}

function row(entry: AuditEntry, choose: AuditWays["choose"]): TemplateResult {
  const { about, aboutName, at, id, status, times } = entry;
  const way = wayTo(entry);
  const name = aboutName ?? (about === null ? "" : "what is gone");
  return html`<tr data-entry=${id}>
    <th scope="row">${timeWords(at)}</th>
    <td>${whoWords(entry)}</td>
    <td>${whatWords(entry)}${times > 1 ? `, ${times} times` : ""}${status >= 400 ? html` <span class="faint">(${status})</span>` : nothing}</td>
    <td>
      ${way === null ? name : html`<a href=${way}>${name}</a>`}
      ${
        about === null
          ? nothing
          : html`<button type="button" class="quiet" aria-label="Only this: ${name}" @click=${() => choose({ about })}>Only this</button>`
      }
    </td>
  </tr>`;
}
