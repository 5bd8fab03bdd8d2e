/** Findings beside a lens: while one is set it comes first and they are folded, since one thing at a time is worked on. */
import { html, type TemplateResult } from "lit-html";
import type { FindingDesk } from "./finding-editor.ts";
import { lensPanel } from "./lens-panel.ts";

/** @param found what is folded under the lens; without one it stands as it is */
export function underLens(
  { analysis: { lens }, take, hear }: FindingDesk,
  found: TemplateResult,
): TemplateResult {
  if (lens === undefined) return found;
  return html`${lensPanel(lens, `#/takes/${take.id}/practice`, { name: "Listen", run: hear })}
    <details class="beside-lens">
      <summary>What else was found</summary>
      ${found}
    </details>`;
}
