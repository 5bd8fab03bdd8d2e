/** Who may see what, as it is seen: tokens in force, links, what has ended, and the form that makes a token. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import { repeat } from "lit-html/directives/repeat.js";
import type { TokenRow } from "../../server/contract/access.ts";
import { type Change, fieldText } from "../shell/drawn-from.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import {
  type AccessState,
  boundMissing,
  changing,
  choicesOf,
  chosen,
  drafted,
  grouped,
  inForce,
  KINDS,
  keepsWords,
  kindName,
  LENGTHS,
  MADE_HERE,
  missing,
  type Named,
  rechanged,
  wayTo,
} from "./access-model.ts";
import { reachList } from "./reach-drawing.ts";

export interface AccessWays {
  readonly change: Change<AccessState>;
  readonly make: () => void;
  readonly keep: () => void;
  readonly end: (token: TokenRow) => void;
  readonly forget: (token: TokenRow) => void;
  readonly copy: (field: HTMLInputElement) => void;
  /** Reads who may see what of a player; none when empty. */
  readonly look: (player: string) => void;
}

/** @param now time as the service writes it */
export function accessDrawing(state: AccessState, now: string, ways: AccessWays): TemplateResult {
  const { people, links, over } = grouped(state.tokens, now);
  return html`
    <section class="sheet">
      <h1>Who may see what</h1>
      <p class="lead">
        While the service answers on this machine alone, whoever sits at it is the owner. On any other address every
        request shows one of these, and reaches what is written beside it.
      </p>
      <details>
        <summary>What each kind opens</summary>
        <dl class="kinds">
          ${KINDS.map(({ name, opens }) => html`<div><dt>${name}</dt><dd>${opens}</dd></div>`)}
        </dl>
      </details>
      <p class="take-ways"><a class="button" href="#/audit">Who read and wrote what</a></p>
      ${guard([state.refused], () => (state.refused === null ? nothing : refusalNote(state.refused)))}
    </section>
    <section class="sheet" id="tokens">
      <h2>Tokens of people</h2>
      ${tokenList(people, "No token is in force.", state, ways)}
    </section>
    <section class="sheet">
      <h2>Links in force</h2>
      <p class="hint">A link to a take is made on its page under “Share”, a player's own on the player's page.</p>
      ${tokenList(links, "No link is in force.", state, ways)}
    </section>
    ${onePlayer(state, ways)}
    <section class="sheet">
      <h2>Make a token</h2>
      ${maker(state, ways)}
    </section>
    ${over.length === 0 ? nothing : ended(over, ways)}`;
}

function tokenList(
  tokens: readonly TokenRow[],
  none: string,
  state: AccessState,
  ways: AccessWays,
): TemplateResult {
  if (tokens.length === 0) return html`<p class="empty">${none}</p>`;
  return html`<ul class="token-list">
    ${repeat(
      tokens,
      ({ id }) => id,
      (token) => html`<li data-token=${token.id}>
        <h3>${token.name}</h3>
        <p>${kindName(token.role)}${reaches(token)}</p>
        <p class="faint">${inForce(token)}${token.role === "teacher" || token.role === "researcher" ? `; ${keepsWords(token)}` : ""}</p>
        ${tools(token, state, ways)}
      </li>`,
    )}
  </ul>`;
}

function reaches({ role, reaches: scope }: TokenRow): TemplateResult | typeof nothing {
  if (scope.length === 0) return role === "teacher" || role === "researcher" ? html`: nothing yet` : nothing;
  return html`: ${scope.map((one, i) => {
    const way = wayTo(role, one);
    return html`${i > 0 ? ", " : ""}${way === null ? html`<span class="faint">deleted</span>` : html`<a href=${way}>${one.name}</a>`}`;
  })}`;
}

function tools(token: TokenRow, state: AccessState, ways: AccessWays): TemplateResult {
  if (state.changing?.id === token.id) return changeForm(token, state, ways);
  if (state.asks === token.id) {
    return html`<div class="confirmation" role="group" aria-label="End ${token.name}">
      <p>Whoever has it is signed out at the next request. It cannot be brought back; a new one can be made.</p>
      <p class="finding-tools">
        <button type="button" @click=${() => ways.end(token)}>Yes, end it</button>
        <button type="button" class="quiet" @click=${() => ways.change((now) => ({ ...now, asks: null }))}>Leave it</button>
      </p>
    </div>`;
  }
  const changes = token.role === "teacher" || token.role === "researcher";
  return html`<p class="finding-tools">
    ${
      changes
        ? html`<button type="button" class="quiet" aria-label="Change what it reaches: ${token.name}"
            @click=${() => ways.change((now) => changing(now, token))}>Change what it reaches</button>`
        : nothing
    }
    <button type="button" class="quiet" aria-label="End it: ${token.name}"
      @click=${() => ways.change((now) => ({ ...now, asks: token.id, changing: null }))}>End it</button>
  </p>`;
}

function changeForm(token: TokenRow, state: AccessState, ways: AccessWays): TemplateResult {
  const draft = state.changing!;
  const lacks = boundMissing(draft);
  const submit = (event: Event) => {
    event.preventDefault();
    if (lacks === null) ways.keep();
  };
  return html`<form novalidate @submit=${submit}>
    ${scopeChoice(choicesOf(state, token.role), draft.scope, (scope) => ways.change((now) => rechanged(now, { scope })))}
    ${bounds(draft, (part) => ways.change((now) => rechanged(now, part)))}
    <p class="hint" role="status">${lacks ?? ""}</p>
    <p class="finding-tools">
      <button type="submit" class="main" ?disabled=${lacks !== null}>Keep it</button>
      <button type="button" class="quiet" @click=${() => ways.change((now) => ({ ...now, changing: null }))}>Leave it</button>
    </p>
  </form>`;
}

function scopeChoice(
  choices: readonly Named[],
  scope: readonly string[],
  take: (scope: readonly string[]) => void,
): TemplateResult {
  return html`<fieldset>
    <legend>Reaches</legend>
    ${choices.length === 0 ? html`<p class="empty">There is nothing to choose yet.</p>` : nothing}
    <div class="choices">
      ${choices.map(
        ({ id, name }) => html`<label class="choice"><input type="checkbox" name="reaches" value=${id}
          .checked=${scope.includes(id)}
          @change=${(event: Event) => take(chosen(scope, id, (event.target as HTMLInputElement).checked))} />${name}</label>`,
      )}
    </div>
  </fieldset>`;
}

interface Bounds {
  readonly mostTakes: string;
  readonly mostMb: string;
}

const bounds = (
  draft: Bounds,
  take: (part: Partial<Bounds>) => void,
): TemplateResult => html`<div class="row">
  <label>Most takes that it may keep
    <input class="short" name="most-takes" inputmode="numeric" placeholder="as set" .value=${draft.mostTakes}
      @input=${(event: Event) => take({ mostTakes: fieldText(event) })} /></label>
  <label>Most megabytes
    <input class="short" name="most-mb" inputmode="decimal" placeholder="as set" .value=${draft.mostMb}
      @input=${(event: Event) => take({ mostMb: fieldText(event) })} /></label>
</div>`;

function onePlayer({ players, seen }: AccessState, { look }: AccessWays): TemplateResult {
  return html`<section class="sheet" id="one-player">
    <h2>One player, and who may see them</h2>
    <label>Player
      <select name="seen-player" @change=${(event: Event) => look(fieldText(event))}>
        <option value="" .selected=${seen === null}>choose</option>
        ${players.map(({ id, name }) => html`<option value=${id} .selected=${id === seen?.player}>${name}</option>`)}
      </select></label>
    <div aria-live="polite">${seen === null ? nothing : reachList(seen.reaches)}</div>
  </section>`;
}

function maker(state: AccessState, ways: AccessWays): TemplateResult {
  const { draft, fresh } = state;
  const lacks = missing(state);
  const write = (part: Partial<AccessState["draft"]>) => ways.change((now) => drafted(now, part));
  const submit = (event: Event) => {
    event.preventDefault();
    if (lacks === null) ways.make();
  };
  return html`<form class="token-maker" novalidate @submit=${submit}>
    <div class="row">
      <label>For whom <input name="token-name" autocomplete="off" maxlength="200" .value=${draft.name}
        @input=${(event: Event) => write({ name: fieldText(event) })} /></label>
      <label>Kind
        <select name="token-role" @change=${(event: Event) => write({ role: MADE_HERE[(event.target as HTMLSelectElement).selectedIndex]! })}>
          ${MADE_HERE.map((role) => html`<option value=${role} .selected=${role === draft.role}>${kindName(role)}</option>`)}
        </select></label>
      <label>In force
        <select name="token-days" @change=${(event: Event) => write({ days: LENGTHS[(event.target as HTMLSelectElement).selectedIndex]![0] })}>
          ${LENGTHS.map(([days, words]) => html`<option value=${String(days ?? "")} .selected=${days === draft.days}>${words}</option>`)}
        </select></label>
    </div>
    <p class="hint">${KINDS.find(({ role }) => role === draft.role)!.opens}</p>
    ${
      draft.role === "teacher" || draft.role === "researcher"
        ? html`${scopeChoice(choicesOf(state, draft.role), draft.scope, (scope) => write({ scope }))}
            ${bounds(draft, write)}`
        : nothing
    }
    <p class="hint" role="status">${lacks ?? ""}</p>
    <button type="submit" class="main" ?disabled=${lacks !== null}>Make the token</button>
    <div aria-live="polite">${fresh === null ? nothing : freshToken(fresh, ways.copy)}</div>
  </form>`;
}

/** The token itself is shown this once; the store keeps only what it is known again by. */
function freshToken(fresh: NonNullable<AccessState["fresh"]>, copy: AccessWays["copy"]): TemplateResult {
  const press = ({ currentTarget }: Event) =>
    copy((currentTarget as HTMLElement).parentElement!.querySelector("input")!);
  return html`<div class="row fresh-token">
      <label>Token of ${fresh.name} <input class="share-address" readonly .value=${fresh.token} /></label>
      <button type="button" @click=${press}>Copy</button>
    </div>
    <p class="hint">It is shown this once: copy it now, and hand it over in person or by a way that others do not read.</p>`;
}

const ended = (
  over: readonly TokenRow[],
  { forget }: AccessWays,
): TemplateResult => html`<section class="sheet">
  <details>
    <summary>What has ended (${over.length})</summary>
    <p class="hint">Kept so that the audit can say who it was; goes by itself with the audit, or now.</p>
    <ul class="token-list">
      ${over.map(
        (token) => html`<li data-token=${token.id}>
          <h3>${token.name}</h3>
          <p class="faint">${kindName(token.role)}, ${inForce(token)}</p>
          <p class="finding-tools">
            <button type="button" class="quiet" aria-label="Forget it: ${token.name}" @click=${() => forget(token)}>Forget it</button>
          </p>
        </li>`,
      )}
    </ul>
  </details>
</section>`;
