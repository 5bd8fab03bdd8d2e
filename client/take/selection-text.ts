/** The margin of a take's page: what the selection is, in words. */
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { noteWords } from "./note-words.ts";
import { selectionWords } from "./selection-words.ts";

/** The panel; it follows the pointer, and falls back to the selection. Spoken when the selection changes. */
export function readingPanel(
  index: AccountIndex,
  store: SelectionStore,
): { element: HTMLElement; end(): void } {
  const body = h("div", { class: "reading-body" });
  const spoken = h("p", { class: "visually-hidden", "aria-live": "polite" });
  const element = h("section", { class: "reading", "aria-label": "What is selected" }, body, spoken);
  const show = () => {
    const note = store.hover ?? (store.selection.kind === "note" ? store.selection.note : null);
    const known = note === null ? undefined : index.note.get(note);
    body.replaceChildren(...(known ? noteWords(index, known, store) : selectionWords(index, store)));
    element.classList.toggle("idle", known === undefined && store.selection.kind === "none");
  };
  const unwatch = store.watch((change) => {
    if (change === "playing") return;
    show();
    if (change === "selection") {
      spoken.textContent = [...body.querySelectorAll("[data-spoken]")]
        .map((part) => part.textContent)
        .join(" ");
    }
  });
  show();
  return {
    element,
    end: unwatch,
  };
}
