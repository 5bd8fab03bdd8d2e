/** Where two windows, or two people, wrote something different in one place: both texts, to choose from. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Finding } from "../../src/account.ts";
import { type TextPlace, textAt } from "../../src/findings/merge-feedback.ts";
import { capital } from "../../src/words/index.ts";
import type { Keeper } from "./keeper.ts";
import { settled } from "./keeping-model.ts";

/** @param findings of the take, to name the one whose wording differs */
export function differingTexts(
  keeper: Keeper,
  findings: readonly Finding[],
): TemplateResult | typeof nothing {
  const { differing, notes } = keeper.state();
  if (differing.length === 0) return nothing;
  return html`<section class="differing no-print" role="alert" aria-label="Written twice">
    <h2>Written in two places at once</h2>
    <p>What stands in the other place is kept. Choose what is to stand; until then yours is kept in this browser.</p>
    ${differing.map(({ place, theirs }) => {
      const mine = textAt(notes, place);
      const choose = (text: string) => keeper.change((now) => settled(now, place, text));
      return html`<div class="differing-one">
        <h3>${nameOf(place, findings)}</h3>
        ${side("Written here", mine, "Keep this one", () => choose(mine))}
        ${side("Written meanwhile", theirs, "Keep that one", () => choose(theirs))}
        ${
          mine === "" || theirs === "" || place.field === "signed"
            ? nothing
            : html`<button type="button" @click=${() => choose(`${theirs}\n\n${mine}`)}>Keep both</button>`
        }
      </div>`;
    })}
  </section>`;
}

const side = (heading: string, text: string, keep: string, run: () => void): TemplateResult =>
  html`<div class="differing-side">
    <p class="finding-heading">${heading}</p>
    <p class="differing-text">${text === "" ? "(nothing: it was taken out)" : text}</p>
    <button type="button" @click=${run}>${keep}</button>
  </div>`;

function nameOf(place: TextPlace, findings: readonly Finding[]): string {
  switch (place.field) {
    case "own":
      return "The player's own view";
    case "signed":
      return "The signature";
    case "edited":
      return capital(findings.find(({ id }) => id === place.finding)?.heading ?? "A finding");
  }
}
