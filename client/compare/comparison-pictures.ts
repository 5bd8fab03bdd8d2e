/** A comparison on the page: words first, then the numbers with their doubt, then the pictures. */
import type { Comparison, ManyCompared } from "../../src/compare/comparison-schema.ts";
import { printedText } from "../findings/finding-words.ts";
import { type Child, h } from "../shell/dom.ts";
import { barsTogetherPicture } from "../views/bars-together.ts";
import { measuresCompared } from "../views/measures-compared.ts";
import { measuresSmallMultiples } from "../views/measures-small-multiples.ts";
import { framePlain } from "../views/plain-frame.ts";
import { sharesCompared } from "../views/shares-compared.ts";
import { sharesSmallMultiples } from "../views/shares-small-multiples.ts";
import { sharedWords, sideNames } from "./shared-words.ts";

/** @param sides as they were asked for, for the ways to their notes */
export function compared(comparison: Comparison, sides: readonly string[]): HTMLElement[] {
  const names = [comparison.sides[0].name, comparison.sides[1].name] as const;
  return [
    h("section", { class: "sheet" }, h("h2", {}, "In words"), wordsOf(comparison), howCompared(comparison)),
    sharedWords(comparison.shared, names, takesOf(sides)),
    framePlain(measuresCompared(comparison)),
    framePlain(barsTogetherPicture(comparison.bars, names)),
    ...comparison.distributions.map((one) => framePlain(sharesCompared(one, names))),
  ];
}

export function comparedMany(many: ManyCompared, sides: readonly string[]): HTMLElement[] {
  const names = many.sides.map((side) => side.name);
  const trends = many.measures.filter((one) => /^(clearly|perhaps)/.test(one.words));
  const [first, last] = [sides[0]!, sides[sides.length - 1]!];
  const pair = new URLSearchParams({ a: first, b: last });
  return [
    h(
      "section",
      { class: "sheet" },
      h("h2", {}, "In words"),
      sideNames(names),
      h("h3", {}, "Over the whole row"),
      trends.length > 0
        ? h("ul", { class: "words" }, ...trends.map((one) => h("li", {}, printedText(one.sentence))))
        : h("p", {}, "No clear change in anything that was measured."),
      h("h3", {}, "The first beside the last"),
      wordsOf(many.ends),
      h("p", { class: "no-print" }, h("a", { href: `#/compare?${pair}` }, "These two in detail")),
      howCompared(many.ends),
    ),
    sharedWords(many.shared, names, takesOf(sides)),
    framePlain(measuresSmallMultiples(many)),
    framePlain({
      ...measuresCompared(many.ends),
      title: `The first beside the last: ${names[0]} and ${names[names.length - 1]}`,
    }),
    framePlain(barsTogetherPicture(many.bars, names)),
    ...many.distributions.map((one) => framePlain(sharesSmallMultiples(one, names))),
  ];
}

function wordsOf({ summary, sides }: Comparison): HTMLElement {
  const names = sides.map((side) => side.name);
  return summary.length > 0
    ? h("ul", { class: "words" }, ...summary.map((sentence) => h("li", {}, ...titled(sentence, names))))
    : h("p", {}, "No clear difference in anything that was measured.");
}

/** A sentence in which the names of the sides stand as titles do, so that their own commas and verbs are not read along. */
function titled(sentence: string, names: readonly string[]): Child[] {
  const at = names
    .flatMap((name) => {
      const from = sentence.indexOf(name);
      return name === "" || from < 0 ? [] : [{ name, from }];
    })
    .sort((a, b) => a.from - b.from || b.name.length - a.name.length)[0];
  if (at === undefined) return [printedText(sentence)];
  const end = at.from + at.name.length;
  return [
    printedText(sentence.slice(0, at.from)),
    h("cite", {}, at.name),
    ...titled(sentence.slice(end), names),
  ];
}

/** The take that a side's notes are in; null for a side of several takes. */
function takesOf(sides: readonly string[]): (string | null)[] {
  return sides.map((side) => (/^(player|tag):/.test(side) ? null : side.replace(/:\d+$/, "")));
}

/** The statistics by their names, folded: what the words above rest on. */
function howCompared({ measures }: Comparison): HTMLElement {
  const told = (n: number | null) => (n === null ? "unknown" : n.toFixed(3));
  return h(
    "details",
    { class: "finding-judged no-print" },
    h("summary", {}, "How this is judged"),
    h(
      "p",
      {},
      "Phrases, not notes, are counted as independent: the sides are dealt anew from all phrases, and p is the share of deals that lie as far apart (permutation test). The rate of false findings is held over the whole page (q, Benjamini and Hochberg). A difference is called clear when it is sure (q at most 0.05) and large enough to matter (Cliff's delta at least 0.33), and perhaps so when p alone is at most 0.05. How far two shares of labels are apart is their Jensen-Shannon divergence. A row of takes is judged by its first and its last, and each take by the one before it.",
    ),
    h(
      "ul",
      {},
      ...measures.map((one) =>
        h("li", {}, `${one.name}: Cliff's delta ${told(one.delta)}, p ${told(one.p)}, q ${told(one.q)}`),
      ),
    ),
  );
}
