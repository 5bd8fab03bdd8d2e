/** Where a pattern is played in a corpus: the form, the picture of the places, and each place to read and to hear. */

import type { Found, Pattern } from "../../server/contract/pattern.ts";
import type { MotifViewpoint } from "../../src/account.ts";
import type { Part } from "../shell/corpora.ts";
import { corpora } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import { patternWords, readPatternWords, VIEWPOINTS } from "../shell/ideas.ts";
import { showIn } from "../shell/show-in.ts";
import { corpusHits } from "../views/corpus-hits.ts";
import { foundHits } from "../views/found-hits.ts";
import { framePlain } from "../views/plain-frame.ts";

export interface CorpusSearchBox {
  readonly element: HTMLElement;
  /** Writes a pattern into the form and looks for it. */
  look(wanted: Omit<Pattern, "notes">): void;
}

/** Places that are asked for at once. */
const LIMIT = 400;
/** Places that are listed one by one. */
const LISTED = 60;

/** `part` says which takes are meant now; `searched` is told each pattern that was looked for, as it was typed. */
export function corpusSearch(
  id: string,
  part: () => Part,
  searched: (viewpoint: string, pattern: string) => void,
): CorpusSearchBox {
  const { form, symbols, viewpoint, edits } = patternForm();
  const result = h("div", { class: "pictures", "aria-live": "polite" });
  const look = async () => {
    const kind = viewpoint.value as MotifViewpoint;
    const asked = {
      viewpoint: kind,
      symbols: readPatternWords(symbols.value, kind),
      maxEdits: Number(edits.value),
      limit: LIMIT,
      filter: part(),
    };
    searched(kind, symbols.value.trim());
    await showIn(result, async () => foundIn(await corpora.search(id, asked)));
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void look();
  });
  return {
    element: h("div", { class: "stack" }, form, result),
    look(wanted) {
      viewpoint.value = wanted.viewpoint;
      symbols.value = patternWords(wanted);
      void look();
      form.scrollIntoView({ block: "start" });
    },
  };
}

/** The picture of the places, and each of the closest. */
function foundIn(found: Found): HTMLElement[] {
  const picture = framePlain(corpusHits(found.found, found.hits, (take) => found.titles[take] ?? take));
  if (found.found === 0) return [picture];
  const places = h(
    "details",
    { class: "sheet" },
    h("summary", {}, "Each place, to read and to hear"),
    foundHits({ ...found, hits: found.hits.slice(0, LISTED) }),
  );
  return [picture, places];
}

function patternForm() {
  const symbols = h("input", {
    name: "symbols",
    required: true,
    "aria-describedby": "symbols-hint",
    value: "-1 -2 -2",
  });
  const viewpoint = h(
    "select",
    { name: "viewpoint" },
    ...VIEWPOINTS.map((one) => h("option", { value: one.id }, one.words)),
  );
  const edits = h("input", { type: "number", name: "edits", min: 0, max: 4, value: 0 });
  const form = h(
    "form",
    { class: "sheet", role: "search", "aria-label": "Look for a pattern" },
    h("h2", {}, "Where is a pattern played?"),
    h(
      "div",
      { class: "row" },
      h("label", {}, "Pattern", symbols),
      h("label", {}, "Listen for", viewpoint),
      h("label", {}, "Notes that may differ", edits),
      h("button", { class: "main", type: "submit" }, "Search"),
    ),
    h(
      "p",
      { class: "hint", id: "symbols-hint" },
      "Steps in semitones (-1 is a half step down), fingers or degrees with spaces between; steps with rhythm, rhythms, ups and downs with semicolons between: +3, 0.5 beats; +2, 1 beat. An idea above writes itself here by a click.",
    ),
  );
  return { form, symbols, viewpoint, edits };
}
