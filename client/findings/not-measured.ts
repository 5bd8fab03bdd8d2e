/** What findings say nothing of, said under them. */
import { html, type TemplateResult } from "lit-html";

export const notMeasured = (): TemplateResult => html`<p class="hint">
  Tone and expression are not measured. There is no mark: what is written here follows from the notes, and a teacher may
  see it otherwise.
</p>`;
