/** Folded beside the findings: how each was judged, and what was held back. */
import type { Analysis, Finding } from "../../src/account.ts";
import { h } from "../shell/dom.ts";
import { heldBackWords, judgedWords } from "./judged-words.ts";

export function howJudged(finding: Finding): HTMLElement {
  return h(
    "details",
    { class: "finding-judged no-print" },
    h("summary", {}, "How this is judged"),
    h("p", {}, judgedWords(finding).join(" ")),
  );
}

/** What applies and is not said; null when nothing was held back. */
export function heldBack(withheld: Analysis["withheld"]): HTMLElement | null {
  const words = heldBackWords(withheld);
  if (words === null) return null;
  return h(
    "details",
    { class: "held-back no-print" },
    h("summary", {}, words.summary),
    h("ul", {}, ...words.reasons.map((reason) => h("li", {}, reason))),
  );
}
