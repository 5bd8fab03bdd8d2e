/** On which paper a page is printed; the choice is kept for the next page and the next visit. */
import { h } from "../shell/dom.ts";

const KEPT = "ledgerline-paper";

const PAPERS = [
  ["a4", "A4"],
  ["letter", "Letter"],
] as const;

const kept = (): string => (localStorage.getItem(KEPT) === "letter" ? "letter" : "a4");

/** A choice between A4 and Letter for `page`, which is laid out for the paper that was chosen last. */
export function paperChoice(page: HTMLElement): HTMLElement {
  const lay = (paper: string) => {
    for (const [name] of PAPERS) page.classList.toggle(`paper-${name}`, name === paper);
  };
  const choice = h(
    "select",
    {
      name: "paper",
      onChange: () => {
        localStorage.setItem(KEPT, choice.value);
        lay(choice.value);
      },
    },
    ...PAPERS.map(([value, words]) => h("option", { value, selected: value === kept() }, words)),
  );
  lay(kept());
  return h("label", { class: "paper-choice" }, "Paper ", choice);
}
