/** What an account looks like, shown by a demo solo. */

import { placeInWords, withAccidentals } from "../../src/words/index.ts";
import { printedText } from "../findings/finding-words.ts";
import { indexAccount } from "../shell/account-index.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Shell } from "../shell/page.ts";
import { createSelection, NOTHING, selectionQuery } from "../shell/selection.ts";
import { day } from "../shell/words.ts";
import { chorusPage } from "../views/chorus-page.ts";
import { frameView } from "../views/frame.ts";
import { readTakes } from "./class-api.ts";

/** A demo solo that lies open while there is no take of one's own; null where there is none. */
export async function openSolo(shell: Shell): Promise<{ element: HTMLElement; end(): void } | null> {
  const { takes: rows } = await readTakes("demo=true");
  const row = rows.find((one) => one.tags.includes("strong")) ?? rows[0];
  if (!row) return null;
  const index = indexAccount(await takes.analysis(row.id));
  const store = createSelection(NOTHING, (selection) => {
    if (selection.kind !== "none") shell.go(`/takes/${row.id}?${selectionQuery(selection)}`);
  });
  const sentence = h("p", { class: "sentence open-sentence" }, "Point at a note to read what it is.");
  const unwatch = store.watch(() => {
    const note = store.hover === null ? undefined : index.note.get(store.hover);
    if (note)
      sentence.textContent = `${withAccidentals(note.spelling)}, ${placeInWords(note)}: ${printedText(note.account)}`;
  });
  const { controls: _left, readings: _one, ...view } = chorusPage(store);
  const frame = frameView(view, index, store);
  const facts = [row.player, day(row.date), row.chartName].filter(Boolean).join(", ");
  return {
    element: h(
      "div",
      { class: "open-solo" },
      h(
        "p",
        { class: "open-head" },
        h("a", { href: `#/takes/${row.id}` }, row.title ?? "Untitled take"),
        h("span", { class: "faint" }, ` ${facts}`),
      ),
      frame.element,
      sentence,
    ),
    end() {
      frame.end();
      unwatch();
    },
  };
}
