/** Folded below the findings: what applies and is not said. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Analysis } from "../../src/account.ts";
import { heldBackWords } from "./judged-words.ts";

/** Nothing where nothing was held back. */
export function heldBack(withheld: Analysis["withheld"]): TemplateResult | typeof nothing {
  const words = heldBackWords(withheld);
  if (words === null) return nothing;
  return html`<details class="held-back no-print">
    <summary>${words.summary}</summary>
    <ul>${words.reasons.map((reason) => html`<li>${reason}</li>`)}</ul>
  </details>`;
}
