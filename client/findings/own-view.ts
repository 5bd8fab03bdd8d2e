/** The player's own evaluation: its place on the page, asked for first when the teacher wants that. */
import { h } from "../shell/dom.ts";
import type { FindingDesk } from "./finding-editor.ts";

export function ownView(desk: FindingDesk, waiting: boolean): HTMLElement {
  const { notes } = desk;
  const text = h("textarea", { rows: 3, name: "own-view" }, notes.own);
  const printed = h("p", { class: "print-only own-print" }, notes.own);
  text.addEventListener("input", () => {
    printed.textContent = text.value;
  });
  text.addEventListener("change", () => {
    notes.own = text.value;
    desk.save();
  });
  const askFirst = h("input", {
    type: "checkbox",
    name: "ask-first",
    checked: notes.askFirst,
    onChange: () => {
      notes.askFirst = askFirst.checked;
      notes.asked = false;
      desk.save();
      desk.show();
    },
  });
  return h(
    "section",
    { class: "own-view" },
    h("h2", {}, "The player's own view"),
    h("label", {}, "What went well, what not yet, what next?", text),
    printed,
    h("label", { class: "choice no-print" }, askFirst, " Ask for it before the findings are shown"),
    waiting
      ? h(
          "button",
          {
            type: "button",
            class: "main",
            onClick: () => {
              notes.own = text.value;
              notes.asked = true;
              desk.save();
              desk.show();
            },
          },
          "I have written; show the findings",
        )
      : null,
  );
}
