/** Findings beside a lens: while one is set it comes first and they are folded, since one thing at a time is worked on; not where the teacher wrote something among them, which is to be read and printed. */
import { html, type TemplateResult } from "lit-html";
import type { FindingDesk } from "./finding-editor.ts";
import { lensPanel } from "./lens-panel.ts";

/** @param found what is folded under the lens; without one it stands as it is */
export function underLens(
  { analysis: { lens }, take, hear, state }: FindingDesk,
  found: TemplateResult,
): TemplateResult {
  if (lens === undefined) return found;
  const { added, edited } = state().notes;
  return html`${lensPanel(lens, `#/takes/${take.id}/practice`, { name: "Listen", run: hear })}
    <details class="beside-lens" ?open=${added.length > 0 || Object.keys(edited).length > 0}>
      <summary>What else was found</summary>
      ${found}
    </details>`;
}
