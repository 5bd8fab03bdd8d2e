/** Beside a take's pictures: the selected notes, or a motif, looked for elsewhere or kept under a name. */
import { count } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import { ideas, patternWords } from "../shell/ideas.ts";
import type { Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { patternText } from "../views/readings/ideas.ts";
import { VIEWPOINT_WORDS } from "../views/viewpoint-words.ts";

/** Longest stretch that is offered as a pattern; the search itself takes 256 notes. */
const LONGEST = 64;

export function findAgain(
  take: string,
  index: AccountIndex,
  store: SelectionStore,
  shell: Shell,
): { element: HTMLElement; end(): void } {
  const element = h("section", { class: "find-again no-print", "aria-label": "Find it again", hidden: true });
  const show = () => {
    const words = offers(take, index, store, shell);
    element.hidden = words.length === 0;
    element.replaceChildren(...words);
  };
  const unwatch = store.watch((change) => {
    if (change === "selection") show();
  });
  show();
  return { element, end: unwatch };
}

function offers(take: string, index: AccountIndex, store: SelectionStore, shell: Shell): HTMLElement[] {
  const { selection } = store;
  if (selection.kind === "motif") {
    const motif = index.motif.get(selection.motif);
    if (!motif) return [];
    const query = new URLSearchParams({
      viewpoint: motif.viewpoint,
      symbols: patternWords({ viewpoint: motif.viewpoint, symbols: motif.pattern }),
    });
    return [
      h("h2", { class: "small-head" }, "This motif elsewhere"),
      h("p", {}, h("a", { href: `#/search?${query}` }, "Find it in other takes and in a corpus")),
      keepForm(motif, shell),
    ];
  }
  const { kind } = selection;
  if (kind !== "bar" && kind !== "phrase" && kind !== "placement" && kind !== "stretch") return [];
  const ids = index.notesOf(selection);
  const notes = index.solo.filter((note) => ids?.has(note.id));
  const [first, last] = [notes[0], notes.at(-1)];
  if (!first || !last || notes.length < 2 || notes.length > LONGEST) return [];
  // A bar of every chorus is no stretch of notes.
  if (index.between(first.id, last.id).length !== notes.length) return [];
  const query = new URLSearchParams({ take, from: first.id, to: last.id });
  return [
    h("h2", { class: "small-head" }, "These notes elsewhere"),
    h(
      "p",
      {},
      h("a", { href: `#/search?${query}` }, `Find these ${count(notes.length, "note")} again`),
      " in this take, in others, or in a corpus.",
    ),
  ];
}

type Motif = Parameters<typeof patternText>[0];

function keepForm(motif: Motif, shell: Shell): HTMLElement {
  const name = h("input", { name: "idea-name", maxlength: 200, required: true, autocomplete: "off" });
  const answer = h("div", { "aria-live": "polite" });
  const form = h(
    "form",
    { class: "keep-idea" },
    h("label", {}, "Keep it under the name", name),
    h("button", { type: "submit" }, "Keep the idea"),
    h("p", { class: "hint" }, `By its ${VIEWPOINT_WORDS[motif.viewpoint]}: ${patternText(motif)}`),
    answer,
  );
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      const row = await ideas.create(name.value.trim(), {
        viewpoint: motif.viewpoint,
        symbols: motif.pattern,
      });
      answer.replaceChildren(
        h("p", {}, `“${row.name}” is kept. `, h("a", { href: "#/ideas" }, "See all ideas")),
      );
      shell.notify(`“${row.name}” is kept among the ideas.`);
      name.value = "";
    } catch (error) {
      answer.replaceChildren(refusalNote(error));
    }
  });
  return form;
}
