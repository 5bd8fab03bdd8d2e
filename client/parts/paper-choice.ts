/** On which paper a page is printed. */
import { h } from "../shell/dom.ts";

/** A choice between A4 and Letter for `page`, which must carry the class "paper-a4" at the start. */
export function paperChoice(page: HTMLElement): HTMLElement {
  const letter = page.classList.contains("paper-letter");
  const choice = h(
    "select",
    {
      name: "paper",
      onChange: () => {
        page.classList.remove("paper-a4", "paper-letter");
        page.classList.add(`paper-${choice.value}`);
      },
    },
    h("option", { value: "a4" }, "A4"),
    h("option", { value: "letter", selected: letter }, "Letter"),
  );
  return h("label", { class: "paper-choice" }, "Paper ", choice);
}
