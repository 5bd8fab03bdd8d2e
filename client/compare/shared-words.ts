/** What all sides of a comparison have in common, in words, with a way to the notes. */
import type { Shared } from "../../src/compare/comparison-schema.ts";
import { capital, count, countInWords, withAccidentals } from "../../src/words/index.ts";
import { type Child, h } from "../shell/dom.ts";

const MOST_LINES = 6;

/** @param takes for each side the take that its notes are in, or null where it is made of several */
export function sharedWords(
  shared: Shared,
  names: readonly string[],
  takes: readonly (string | null)[],
): HTMLElement {
  const both = names.length === 2 ? "Both" : `All ${countInWords(names.length)}`;
  const items: Child[][] = [];
  for (const line of shared.lines.slice(0, MOST_LINES)) {
    items.push([
      `${both} play the same line of ${count(line.intervals.length + 1, "note")} (${line.intervals.map(step).join(" ")}): `,
      ...names.flatMap((name, side) => {
        const take = takes[side];
        const first = line.starts[side]?.[0];
        const times = count(line.starts[side]?.length ?? 0, "time");
        return [
          side > 0 ? ", " : "",
          take && first ? h("a", { href: `#/takes/${take}?note=${encodeURIComponent(first)}` }, name) : name,
          ` (${times})`,
        ];
      }),
      ".",
    ]);
  }
  if (shared.motifs.length > 0) {
    items.push([`${both} return to ${count(shared.motifs.length, "common idea")}.`]);
  }
  if (shared.placements.length > 0) {
    items.push([
      `${both} use ${shared.placements.length === 1 ? "the placement" : "the placements"} ${shared.placements.join("; ")}.`,
    ]);
  }
  if (shared.degrees.length > 0) {
    items.push([
      `${both} dwell on ${shared.degrees.map(withAccidentals).join(", ")}: each of them is a twentieth of the notes or more.`,
    ]);
  }
  return h(
    "section",
    { class: "sheet" },
    h("h2", {}, "What they share"),
    items.length === 0
      ? h(
          "p",
          {},
          `Nothing of five notes or more, no placement and no degree is common to ${names.length === 2 ? "both" : "all"}.`,
        )
      : h("ul", { class: "words" }, ...items.map((item) => h("li", {}, ...item))),
  );
}

const step = (semitones: number): string =>
  semitones > 0 ? `+${semitones}` : semitones < 0 ? `−${-semitones}` : "0";

/** "three sides: 1 First try, 2 Second try": the numbers that the small pictures use. */
export function sideNames(names: readonly string[]): HTMLElement {
  return h(
    "ol",
    { class: "side-names", "aria-label": capital(count(names.length, "side")) },
    ...names.map((name) => h("li", {}, name)),
  );
}
