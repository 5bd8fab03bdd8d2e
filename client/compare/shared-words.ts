/** What all sides of a comparison have in common, in words, with a way to the notes. */

import { type Degree, degreeName } from "../../src/chart/index.ts";
import type { Shared } from "../../src/compare/comparison-schema.ts";
import { capital, count, countInWords, listInWords, withAccidentals } from "../../src/words/index.ts";
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
    const length = count(line.intervals.length + 1, "note");
    const alike = sameNames(line);
    items.push([
      `${both} play the same line of ${length}${alike === null ? "" : ` (${alike})`}: `,
      ...names.flatMap((name, side) => {
        const take = takes[side];
        const first = line.starts[side]?.[0];
        const told = lineTold(line, side, take !== null, alike === null);
        return [
          side > 0 ? "; " : "",
          take && first
            ? h("a", { href: `#/takes/${take}?note=${encodeURIComponent(first)}` }, name)
            : h("cite", {}, name),
          ` ${told}`,
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
      `${both} use ${shared.placements.length === 1 ? "the placement" : "the placements"} ${shared.placements.map(withAccidentals).join("; ")}.`,
    ]);
  }
  if (shared.degrees.length > 0) {
    items.push([
      `${both} dwell on ${listInWords(shared.degrees.map((degree) => `the ${degreeName(degree as Degree)}`))}: each is a twentieth of the notes or more.`,
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

type Line = Shared["lines"][number];

/** "C, E♭ and F" without octaves, as one speaks of a line. */
const noteNames = (spellings: readonly string[]): string =>
  spellings.map((spelling) => withAccidentals(spelling.replace(/-?\d+$/, ""))).join(" ");

/** The names of its notes where they are the same wherever it is played; null where it stands on several pitches. */
function sameNames({ places }: Line): string | null {
  const told = new Set(places.flat().map((place) => noteNames(place.notes)));
  const [one] = told;
  return told.size === 1 && one !== undefined ? one : null;
}

/**
 * "in chorus 2, bar 5, and once more (E♭ F G)": where one side plays a line.
 *
 * @param placed whether its places are in one take, where a bar can be named
 * @param named whether its notes are named here
 */
function lineTold({ places, starts }: Line, side: number, placed: boolean, named: boolean): string {
  const all = places[side] ?? [];
  const [first] = all;
  if (first === undefined) return `(${count(starts[side]?.length ?? 0, "time")})`;
  const notes = named ? ` (${noteNames(first.notes)})` : "";
  if (!placed) return `${count(all.length, "time")}${notes}`;
  const more =
    all.length === 1
      ? ""
      : all.length === 2
        ? " and once more"
        : ` and ${countInWords(all.length - 1)} more times`;
  const bar =
    first.bar < 1 ? `the pickup to chorus ${first.chorus}` : `bar ${first.bar} of chorus ${first.chorus}`;
  return `in ${bar}${more}${notes}`;
}

/** "three sides: 1 First try, 2 Second try": the numbers that the small pictures use. */
export function sideNames(names: readonly string[]): HTMLElement {
  return h(
    "ol",
    { class: "side-names", "aria-label": capital(count(names.length, "side")) },
    ...names.map((name) => h("li", {}, name)),
  );
}
