/** The player's own evaluation: its place on the page, asked for first when the teacher wants that. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { FindingDesk } from "./finding-editor.ts";
import { isWaiting, noted } from "./findings-model.ts";

export function ownView(desk: FindingDesk): TemplateResult {
  const { notes } = desk.state();
  const keep = (soon?: "soon") => (event: Event) =>
    desk.change((now) => noted(now, { own: (event.target as HTMLTextAreaElement).value }), soon);
  const ask = (event: Event) =>
    desk.change((now) => noted(now, { askFirst: (event.target as HTMLInputElement).checked, asked: false }));
  return html`<section class="own-view">
    <h2>The player's own view</h2>
    <label
      >What went well, what not yet, what next?<textarea
        rows="3"
        name="own-view"
        .value=${notes.own}
        @input=${keep("soon")}
        @change=${keep()}
      ></textarea>
    </label>
    <p class="print-only own-print">${notes.own}</p>
    <label class="choice no-print">
      <input type="checkbox" name="ask-first" .checked=${notes.askFirst} @change=${ask} />
      Ask for it before the findings are shown
    </label>
    ${
      isWaiting(desk.state())
        ? html`<button
            type="button"
            class="main"
            @click=${() => desk.change((now) => noted(now, { asked: true }))}
          >I have written; show the findings</button>`
        : nothing
    }
  </section>`;
}
