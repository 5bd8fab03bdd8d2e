/** One finding on the feedback page: its sentence, where to hear it, what to play, and the teacher's tools. */

import type { Finding } from "../../src/account.ts";
import { capital } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import type { FindingDesk } from "./finding-editor.ts";
import { barWords, findingSentence, printedText } from "./finding-words.ts";
import { howJudged } from "./judged.ts";

export function findingItem(finding: Finding, desk: FindingDesk): HTMLElement {
  const { notes, store, take } = desk;
  const text = printedText(notes.edited[finding.id] ?? finding.text);
  const words = findingSentence(finding, text, store, () => desk.follow());
  const tool = (name: string, run: () => void) =>
    h("button", { type: "button", class: "quiet", onClick: run }, name);
  return h(
    "li",
    { class: "finding" },
    h("p", { class: "finding-heading" }, capital(finding.heading)),
    words,
    finding.bars.length > 0 ? h("p", { class: "finding-bars" }, barWords(finding)) : null,
    finding.practice
      ? h(
          "p",
          { class: "finding-practice" },
          h("strong", {}, printedText(finding.practice.title)),
          ` ${printedText(finding.practice.text)} `,
          h(
            "a",
            {
              class: "no-print",
              href: `#/takes/${take.id}/practice?exercise=${encodeURIComponent(finding.id)}`,
            },
            "See the exercise",
          ),
        )
      : null,
    howJudged(finding),
    h(
      "div",
      { class: "finding-tools no-print" },
      finding.evidence.length === 0
        ? null
        : tool("Listen", () => {
            store.select({ kind: "finding", finding: finding.id });
            desk.listen();
          }),
      tool("Reword", () => reword(finding, words, desk)),
      tool("Leave off", () => leaveOff(finding, desk)),
    ),
  );
}

function leaveOff(finding: Finding, desk: FindingDesk): void {
  const { notes } = desk;
  notes.hidden.push(finding.id);
  desk.save();
  desk.show();
  desk.say("The finding is left off the page.", {
    label: "Undo",
    run: () => {
      notes.hidden = notes.hidden.filter((other) => other !== finding.id);
      desk.save();
      desk.show();
    },
  });
}

function reword(finding: Finding, words: HTMLElement, desk: FindingDesk): void {
  const { notes } = desk;
  const field = h(
    "textarea",
    { rows: 4, "aria-label": "Your wording" },
    notes.edited[finding.id] ?? finding.text,
  );
  const keep = () => {
    const text = field.value.trim();
    if (text === "" || text === finding.text) delete notes.edited[finding.id];
    else notes.edited[finding.id] = text;
    desk.save();
    desk.show();
  };
  words.replaceWith(
    h(
      "div",
      { class: "reword" },
      field,
      h(
        "div",
        { class: "finding-tools" },
        h("button", { type: "button", onClick: keep }, "Keep this wording"),
        h("button", { type: "button", class: "quiet", onClick: () => desk.show() }, "Leave it"),
      ),
    ),
  );
  field.focus();
}
