/** The class as it is seen: a row a player. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { ClassPlayer } from "../../server/contract/class.ts";
import { capital, count } from "../../src/words/index.ts";
import { day } from "../shell/words.ts";
import { type ClassState, dueWords, hasDemo, movedWords, shownPlayers } from "./class-model.ts";

export const classDrawing = (state: ClassState, showDemo: (shown: boolean) => void): TemplateResult => {
  const rows = shownPlayers(state);
  return html`
    ${rows.length === 0 ? html`<p class="empty">There is no player yet. One comes with the first take that names them.</p>` : nothing}
    <ul class="player-rows">${rows.map((one) => row(one, state.today))}</ul>
    ${
      hasDemo(state)
        ? html`<button type="button" class="quiet" @click=${() => showDemo(!state.demo)}>
            ${state.demo ? "Put the demo class away" : "Show the demo class"}
          </button>`
        : nothing
    }`;
};

const row = (player: ClassPlayer, today: string) => {
  const due = dueWords({ ...player, today });
  const moved = movedWords(player);
  return html`<li class="player">
    <a class="player-name" href="#/players/${player.id}">${player.name}</a>
    <span class="take-facts">${count(player.takes, "take")}${player.demo ? " · demo" : ""}</span>
    <span class="take-facts">${player.lens === null ? "No lens" : `Lens: ${player.lens.name}, since ${day(player.lens.since)}`}</span>
    ${moved === "" ? nothing : html`<span class="take-facts player-moved">${capital(moved)}</span>`}
    ${
      player.last === null
        ? nothing
        : html`<span class="take-facts">Last: <a href="#/takes/${player.last.id}">${player.last.title}</a>, ${day(player.last.date)}</span>`
    }
    ${
      player.waiting === 0
        ? nothing
        : html`<a class="player-due" href="#/players/${player.id}">${capital(count(player.waiting, "lesson"))} ${player.waiting === 1 ? "waits" : "wait"} for a take</a>`
    }
    ${due === "" ? nothing : html`<span class="player-due">Due: ${due}</span>`}
  </li>`;
};
