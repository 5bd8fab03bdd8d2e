/** Names the pattern that was looked for and keeps it among the ideas. */
import type { Found } from "../../server/contract/pattern.ts";
import { capital, count } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import { ideas } from "../shell/ideas.ts";
import type { Shell } from "../shell/page.ts";
import { printedPattern } from "../shell/printed-pattern.ts";
import { refusalNote } from "../shell/refusal-note.ts";

export function keepFound(pattern: Found["pattern"], shell: Shell): HTMLElement {
  const name = h("input", { name: "idea-name", maxlength: 200, required: true, autocomplete: "off" });
  const answer = h("div", { "aria-live": "polite" });
  const form = h(
    "form",
    { class: "keep-idea" },
    h("h2", { class: "small-head" }, "Keep it as an idea"),
    h("p", { class: "hint" }, `${capital(count(pattern.notes, "note"))}: ${printedPattern(pattern)}`),
    h(
      "div",
      { class: "row" },
      h("label", {}, "Name of the idea", name),
      h("button", { type: "submit" }, "Keep it"),
    ),
    answer,
  );
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      const row = await ideas.create(name.value.trim(), pattern);
      answer.replaceChildren();
      shell.notify(`“${row.name}” is kept among the ideas.`);
      name.value = "";
    } catch (error) {
      answer.replaceChildren(refusalNote(error));
    }
  });
  return form;
}
