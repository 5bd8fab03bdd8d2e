/** The findings of a take to be read, not written: each sentence leads to its notes. */

import { render } from "lit-html";
import type { Finding, LensOutcome } from "../../src/account.ts";
import { type Lesson, shownFindings } from "../../src/findings/lesson.ts";
import { capital } from "../../src/words/index.ts";
import {
  barWords,
  FINDING_KINDS,
  findingSentence,
  isGoal,
  notMeasured,
  printedText,
} from "../findings/finding-words.ts";
import { lensPanel } from "../findings/lens-panel.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";

/** `follow` is called after a finding was chosen, to bring its notes into sight. */
export function lessonFindings(
  lesson: Lesson,
  store: SelectionStore,
  follow: () => void,
): { element: HTMLElement; end(): void } {
  const element = h("section", { class: "findings lesson-findings", "aria-label": "Findings" });
  const { feedback } = lesson;
  const { lens } = lesson.analysis;
  let waiting = feedback.askFirst && !feedback.asked;
  let own = feedback.own;

  const show = () => {
    const findings = shownFindings(lesson.analysis, feedback);
    const goals = findings.filter(isGoal);
    element.replaceChildren(
      ...(waiting ? [ask()] : own === "" ? [] : [ownView()]),
      ...(waiting
        ? []
        : [
            ...(goals.length > 0 ? [group("goals", "Goals", goals, "")] : []),
            ...(lens === undefined ? [] : [lensHost(lens, choose)]),
            ...FINDING_KINDS.map(({ kind, heading, none }) =>
              group(
                kind,
                heading,
                findings.filter((one) => one.kind === kind && !isGoal(one)),
                none,
              ),
            ),
            notMeasured(),
            feedback.signed === "" ? "" : h("p", { class: "signature" }, `Signed: ${feedback.signed}`),
          ]),
    );
    mark();
  };

  const choose = (finding: string) => {
    store.select({ kind: "finding", finding });
    follow();
  };

  const ask = (): HTMLElement => {
    const text = h("textarea", { rows: 3, name: "own-view" }, own);
    return h(
      "section",
      { class: "own-view" },
      h("h2", {}, "First your own view"),
      h("label", {}, "What went well, what not yet, what next?", text),
      h(
        "p",
        { class: "hint" },
        "Your teacher would like you to write before you read. It stays on this page; nothing is sent.",
      ),
      h(
        "button",
        {
          type: "button",
          class: "main",
          onClick: () => {
            own = text.value.trim();
            waiting = false;
            show();
            element.querySelector<HTMLElement>("[data-finding]")?.focus();
          },
        },
        "I have written; show the findings",
      ),
    );
  };

  const ownView = (): HTMLElement =>
    h("section", { class: "own-view" }, h("h2", {}, "The player's own view"), h("p", {}, own));

  const group = (kind: string, heading: string, findings: readonly Finding[], none: string): HTMLElement =>
    h(
      "section",
      { class: `finding-group kind-${kind}` },
      h("h2", {}, heading),
      findings.length === 0 ? h("p", { class: "empty" }, none) : null,
      h("ol", {}, ...findings.map((finding) => item(finding, store, follow))),
    );

  const mark = () => {
    for (const words of element.querySelectorAll<HTMLElement>("[data-finding]")) {
      const on = store.selection.kind === "finding" && store.selection.finding === words.dataset.finding;
      words.setAttribute("aria-pressed", String(on));
    }
  };
  const unwatch = store.watch((change) => {
    if (change === "selection") mark();
  });
  show();
  return { element, end: unwatch };
}

function item(finding: Finding, store: SelectionStore, follow: () => void): HTMLElement {
  return h(
    "li",
    { class: "finding" },
    h("p", { class: "finding-heading" }, capital(finding.heading)),
    findingSentence(finding, printedText(finding.text), store, follow),
    finding.bars.length > 0 ? h("p", { class: "finding-bars" }, barWords(finding)) : null,
    finding.practice
      ? h(
          "p",
          { class: "finding-practice" },
          h("strong", {}, printedText(finding.practice.title)),
          ` ${printedText(finding.practice.text)}`,
        )
      : null,
  );
}

function lensHost(lens: LensOutcome, run: (id: string) => void): HTMLElement {
  const host = h("div", { class: "lens-host" });
  render(lensPanel(lens, null, { name: "Show", run }), host);
  return host;
}
