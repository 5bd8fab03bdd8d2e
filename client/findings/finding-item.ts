/** One finding: its sentence, where to hear it, what to play, how it was judged, and the teacher's tools. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Finding } from "../../src/account.ts";
import { capital } from "../../src/words/index.ts";
import type { FindingDesk } from "./finding-editor.ts";
import { barWords, printedText } from "./finding-words.ts";
import { fold, keepWording, leaveOff, leaveWording, putBack, textOf, word } from "./findings-model.ts";
import { judgedWords } from "./judged-words.ts";

/** A finding in full. @param more tools of its own, and what stands in place of its heading */
export function findingItem(
  finding: Finding,
  desk: FindingDesk,
  more: { readonly heading?: string; readonly tools?: TemplateResult } = {},
): TemplateResult {
  return html`<li class="finding">
    <p class="finding-heading">${more.heading ?? capital(finding.heading)}</p>
    ${desk.state().wordings[finding.id] === undefined ? sentence(finding, desk) : rewording(finding, desk)}
    ${details(finding, desk, more.tools)}
  </li>`;
}

/** A finding in one line: pointing at it lights its notes, a click plays them, and it unfolds. */
export function findingLine(
  finding: Finding,
  desk: FindingDesk,
  more: { readonly heading?: string; readonly tools?: TemplateResult } = {},
): TemplateResult {
  const state = desk.state();
  const open = state.open.has(finding.id) || state.wordings[finding.id] !== undefined;
  return html`<li class=${open ? "finding finding-line unfolded" : "finding finding-line"}>
    <div class="line-row">
      ${state.wordings[finding.id] === undefined ? lineText(finding, desk) : rewording(finding, desk)}
      <button
        type="button"
        class="unfold no-print"
        aria-expanded=${String(open)}
        aria-label=${`More on this: ${capital(finding.heading)}`}
        @click=${() => desk.change((now) => fold(now, finding.id))}
      ></button>
    </div>
    ${
      open
        ? html`<div class="line-more">
            <p class="finding-heading">${more.heading ?? capital(finding.heading)}</p>
            ${details(finding, desk, more.tools)}
          </div>`
        : nothing
    }
  </li>`;
}

function lineText(finding: Finding, desk: FindingDesk): TemplateResult {
  const text = textOf(desk.state(), finding);
  if (finding.evidence.length === 0) return html`<p class="finding-text">${text}</p>`;
  const light = () => desk.store.light({ kind: "finding", finding: finding.id });
  const dark = () => desk.store.light(null);
  return html`<button
    type="button"
    class="finding-text link"
    data-finding=${finding.id}
    title="Play its notes"
    aria-pressed=${String(isChosen(finding, desk))}
    @pointerenter=${light}
    @pointerleave=${dark}
    @focus=${light}
    @blur=${dark}
    @click=${() => desk.hear(finding.id)}
  >${text}</button>`;
}

const isChosen = (finding: Finding, { store }: FindingDesk): boolean =>
  store.selection.kind === "finding" && store.selection.finding === finding.id;

function sentence(finding: Finding, desk: FindingDesk): TemplateResult {
  const text = textOf(desk.state(), finding);
  if (finding.evidence.length === 0) return html`<p class="finding-text">${text}</p>`;
  const choose = () => {
    desk.store.select({ kind: "finding", finding: finding.id });
    desk.follow();
  };
  return html`<button
    type="button"
    class="finding-text link"
    data-finding=${finding.id}
    aria-pressed=${String(isChosen(finding, desk))}
    @click=${choose}
  >${text}</button>`;
}

/** What stands below the sentence. */
function details(finding: Finding, desk: FindingDesk, tools: TemplateResult | undefined): TemplateResult {
  const { practice } = finding;
  const exercise = `#/takes/${desk.take.id}/practice?exercise=${encodeURIComponent(finding.id)}`;
  return html`${finding.bars.length > 0 ? html`<p class="finding-bars">${barWords(finding)}</p>` : nothing}
    ${
      practice
        ? html`<p class="finding-practice">
            <strong>${printedText(practice.title)}</strong> ${printedText(practice.text)}
            <a class="no-print" href=${exercise}>See the exercise</a>
          </p>`
        : nothing
    }
    <details class="finding-judged no-print">
      <summary>How this is judged</summary>
      <p>${judgedWords(finding).join(" ")}</p>
    </details>
    <div class="finding-tools no-print">
      ${finding.evidence.length === 0 ? nothing : tool("Listen", () => desk.hear(finding.id))}
      ${tool("Reword", () => beginWording(finding, desk))}
      ${tool("Leave off", () => leave(finding, desk))}${tools ?? nothing}
    </div>`;
}

export const tool = (name: string, run: () => void): TemplateResult =>
  html`<button type="button" class="quiet" @click=${run}>${name}</button>`;

/** Begins a wording and puts the focus into it. */
function beginWording({ id, text }: Finding, desk: FindingDesk): void {
  desk.change((now) => word(now, id, now.notes.edited[id] ?? text));
  document.querySelector<HTMLElement>(`[data-wording="${CSS.escape(id)}"]`)?.focus();
}

function leave(finding: Finding, desk: FindingDesk): void {
  desk.change((now) => leaveOff(now, finding.id));
  desk.say("The finding is left off the page.", {
    label: "Undo",
    run: () => desk.change((now) => putBack(now, finding.id)),
  });
}

function rewording(finding: Finding, desk: FindingDesk): TemplateResult {
  return html`<div class="reword">
    <textarea
      rows="4"
      data-wording=${finding.id}
      aria-label="Your wording"
      .value=${desk.state().wordings[finding.id] ?? ""}
      @input=${(event: Event) =>
        desk.change((now) => word(now, finding.id, (event.target as HTMLTextAreaElement).value))}
    ></textarea>
    <div class="finding-tools">
      <button type="button" @click=${() => desk.change((now) => keepWording(now, finding))}>Keep this wording</button>
      ${tool("Leave it", () => desk.change((now) => leaveWording(now, finding.id)))}
    </div>
  </div>`;
}
