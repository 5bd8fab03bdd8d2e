/** The findings of a take to be read, not written: each sentence leads to its notes. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Finding } from "../../src/account.ts";
import { isRemark, type Lesson } from "../../src/findings/lesson.ts";
import { capital } from "../../src/words/index.ts";
import { barWords, printedText } from "../findings/finding-words.ts";
import { lensPanel } from "../findings/lens-panel.ts";
import { notMeasured } from "../findings/not-measured.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom, fieldText } from "../shell/drawn-from.ts";
import type { SelectionStore } from "../shell/selection.ts";
import {
  type FindingGroup,
  findingGroups,
  followSelection,
  goalGroup,
  type LessonReading,
  openedLesson,
  showFindings,
  writeOwn,
} from "./lesson-reading.ts";

/** `follow` is called after a finding was chosen, to bring its notes into sight. */
export function lessonFindings(
  lesson: Lesson,
  store: SelectionStore,
  follow: () => void,
): { element: HTMLElement; end(): void } {
  const element = h("section", { class: "findings lesson-findings", "aria-label": "Findings" });
  const choose = (finding: string) => {
    store.select({ kind: "finding", finding });
    follow();
  };
  const first = followSelection(openedLesson(lesson.feedback), store.selection);
  const { change } = drawnFrom(element, first, (now, next) => {
    if (!now.waiting) return shown(now, lesson, choose);
    const done = () => {
      next(showFindings);
      element.querySelector<HTMLElement>("[data-finding]")?.focus();
    };
    return ask(now, (own) => next((state) => writeOwn(state, own)), done);
  });
  const end = store.watch((changed) => {
    if (changed === "selection") change((now) => followSelection(now, store.selection));
  });
  return { element, end };
}

const ask = (
  { own }: LessonReading,
  write: (own: string) => void,
  done: () => void,
): TemplateResult => html`<section class="own-view">
  <h2>First your own view</h2>
  <label>What went well, what not yet, what next?
    <textarea rows="3" name="own-view" .value=${own}
      @input=${(event: Event) => write(fieldText(event))}></textarea></label>
  <p class="hint">
    Your teacher would like you to write before you read. It stays on this page; nothing is sent.
  </p>
  <button type="button" class="main" @click=${done}>I have written; show the findings</button>
</section>`;

function shown(now: LessonReading, lesson: Lesson, choose: (finding: string) => void): TemplateResult {
  const goals = goalGroup(lesson);
  const { lens } = lesson.analysis;
  const { signed } = lesson.feedback;
  return html`${now.own === "" ? nothing : ownView(now.own)}
    ${goals === null ? nothing : group(goals, now, choose)}
    ${
      lens === undefined
        ? nothing
        : html`<div class="lens-host">${lensPanel(lens, null, { name: "Show", run: choose })}</div>`
    }
    ${findingGroups(lesson).map((one) => group(one, now, choose))}
    ${notMeasured()}
    ${signed === "" ? nothing : html`<p class="signature">Signed: ${signed}</p>`}`;
}

const ownView = (own: string): TemplateResult =>
  html`<section class="own-view"><h2>The player's own view</h2><p>${own}</p></section>`;

const group = (
  { kind, heading, findings, none }: FindingGroup,
  now: LessonReading,
  choose: (finding: string) => void,
): TemplateResult => html`<section class="finding-group kind-${kind}">
  <h2>${heading}</h2>
  ${findings.length === 0 ? html`<p class="empty">${none}</p>` : nothing}
  <ol>${findings.map((finding) => item(finding, now, () => choose(finding.id)))}</ol>
</section>`;

const item = (
  finding: Finding,
  now: LessonReading,
  choose: () => void,
): TemplateResult => html`<li class="finding">
  <p class="finding-heading">${isRemark(finding) ? "From the teacher" : capital(finding.heading)}</p>
  ${sentence(finding, now.chosen === finding.id, choose)}
  ${finding.bars.length > 0 ? html`<p class="finding-bars">${barWords(finding)}</p>` : nothing}
  ${
    finding.practice
      ? html`<p class="finding-practice">
          <strong>${printedText(finding.practice.title)}</strong> ${printedText(finding.practice.text)}
        </p>`
      : nothing
  }
</li>`;

/** A finding's sentence; one with notes behind it is a button that chooses them. */
function sentence({ id, text, evidence }: Finding, chosen: boolean, choose: () => void): TemplateResult {
  const words = printedText(text);
  return evidence.length === 0
    ? html`<p class="finding-text">${words}</p>`
    : html`<button type="button" class="finding-text link" data-finding=${id} aria-pressed=${String(chosen)}
        @click=${choose}>${words}</button>`;
}
