/** A lesson without a take as a sheet: where the hand stands, exercises to play and hear, a chorus of one's own. */
import type { MappedChord, PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { classNameOf } from "../../src/pitch/index.ts";
import { LEVELS } from "../../src/practice/levels.ts";
import type { PreparedLesson } from "../../src/practice/prepared-lesson.ts";
import { listInWords, withAccidentals } from "../../src/words/index.ts";
import { type KeyRange, shapeOfPlacement } from "../draw/map-picture.ts";
import { barRuns } from "../findings/finding-words.ts";
import { paperChoice } from "../parts/paper-choice.ts";
import { engraveExercises, exerciseBlock } from "../practice/exercise-block.ts";
import { cautionOf } from "../practice/exercise-words.ts";
import { type PageTurner, pageTurner } from "../practice/page-turner.ts";
import { printButton } from "../practice/print-button.ts";
import { sheetFoot } from "../practice/sheet-foot.ts";
import { h } from "../shell/dom.ts";
import { tableBelow } from "../views/picture-tools.ts";
import { placementTable } from "../views/placement-table.ts";

export interface SheetWays {
  /** Path below the API of the lesson's files. */
  readonly path: string;
  readonly query: URLSearchParams;
  /** Shows the lesson in another key. */
  readonly inKey: (key: string) => void;
  /** Links and buttons of the page that the sheet stands on. */
  readonly tools: readonly HTMLElement[];
  /** Turns the pages of the sheet; the page that it stands on ends it. */
  readonly turner: PageTurner;
}

/** Turns from the placements to the first exercise and on, by foot or key. */
export const sheetTurner = (host: HTMLElement): PageTurner =>
  pageTurner(() => [...host.querySelectorAll<HTMLElement>(".lesson-places, .exercise")]);

/** Puts the sheet into the page; its staves are drawn one after the other when it stands there. */
export function showSheet(host: HTMLElement, lesson: PreparedLesson, ways: SheetWays): Promise<void> {
  const address =
    (exercise: string) =>
    (file: string, more: Readonly<Record<string, string>> = {}) =>
      `${ways.path}/${exercise}/${file}?${withMore(ways.query, more)}`;
  const list = h(
    "div",
    { class: "exercises" },
    ...lesson.exercises.map((exercise, i) => exerciseBlock(exercise, i + 1, null, address(exercise.id))),
  );
  const sheet = h("article", { class: "practice-sheet lesson-sheet paper-a4" });
  let drawn: Promise<void> = Promise.resolve();
  sheet.append(
    head(
      lesson,
      ways,
      sheet,
      printButton(() => drawn),
    ),
    lesson.lens === null ? "" : h("p", { class: "lead" }, lesson.lens.about),
    ways.turner.element,
    places(lesson.map),
    list,
    cautionOf(lesson.exercises) ?? "",
    sheetFoot(),
  );
  host.replaceChildren(sheet);
  drawn = engraveExercises(list, lesson.exercises, (exercise) => address(exercise.id)("score.musicxml"));
  return drawn;
}

function withMore(query: URLSearchParams, more: Readonly<Record<string, string>>): URLSearchParams {
  const all = new URLSearchParams(query);
  for (const [name, value] of Object.entries(more)) all.set(name, value);
  return all;
}

function head(lesson: PreparedLesson, ways: SheetWays, sheet: HTMLElement, print: HTMLElement): HTMLElement {
  const level = LEVELS.find(({ id }) => id === lesson.level)?.name ?? lesson.level;
  return h(
    "header",
    { class: "take-head" },
    h("h1", {}, withAccidentals(lesson.title)),
    h(
      "p",
      { class: "take-meta" },
      [
        level,
        lesson.feel === "swing" ? "swung eighths" : "even eighths",
        listInWords(lesson.map.shapes),
      ].join("; "),
    ),
    h(
      "div",
      { class: "take-ways no-print" },
      ...ways.tools,
      h("label", { class: "paper-choice" }, "Key ", keyChoice(lesson, ways.inKey)),
      print,
      paperChoice(sheet),
      ...[
        ["whole.musicxml", "MusicXML"],
        ["whole.mid", "MIDI"],
      ].map(([file, name]) =>
        h("a", { href: `/api${ways.path}/${file}?${withMore(ways.query, {})}`, download: true }, name!),
      ),
    ),
  );
}

/** Keys are named by flats where they are gone through from C up. [practice] */
function keyChoice({ chart }: PreparedLesson, inKey: (key: string) => void): HTMLSelectElement {
  const minor = chart.key.endsWith("m") ? "m" : "";
  const names = Array.from({ length: 12 }, (_, pitchClass) => classNameOf(pitchClass, "flats") + minor);
  const all = names.includes(chart.key) ? names : [chart.key, ...names];
  const choice = h(
    "select",
    { name: "in-key", onChange: () => inKey(choice.value) },
    ...all.map((name) => h("option", { value: name, selected: name === chart.key }, withAccidentals(name))),
  );
  return choice;
}

/** Each chord of the form once, with the bars in which it sounds. */
function places(map: PlacementMap): HTMLElement {
  const chords = new Map<string, MappedChord[]>();
  for (const chord of map.chords) chords.set(chord.symbol, [...(chords.get(chord.symbol) ?? []), chord]);
  const pitches = map.chords.flatMap(({ placements }) =>
    placements.flatMap(({ keys }) => keys.map(({ pitch }) => pitch)),
  );
  const range = { low: Math.min(60, ...pitches) - 1, high: Math.max(76, ...pitches) + 1 };
  return h(
    "section",
    { class: "lesson-places" },
    h("h2", {}, "Where the hand may stand"),
    h(
      "p",
      { class: "hint" },
      "Numbers are fingers, the ringed one names the place; underneath stands what each key is to the chord.",
    ),
    ...[...chords].map(([symbol, at]) => placesOn(symbol, at, range)),
    tableBelow("Where the hand may stand", () => placementTable(map)),
  );
}

function placesOn(symbol: string, at: readonly MappedChord[], range: KeyRange): HTMLElement {
  const bars = [...new Set(at.map(({ bar }) => bar))];
  const { placements } = at[0]!;
  return h(
    "section",
    { class: "lesson-chord", "aria-label": withAccidentals(symbol) },
    h("h3", {}, withAccidentals(symbol)),
    h("p", { class: "faint" }, `${bars.length === 1 ? "bar" : "bars"} ${listInWords(barRuns(bars))}`),
    placements.length === 0
      ? h("p", { class: "empty" }, "None of these shapes has a place on this chord; the hand waits.")
      : h(
          "div",
          { class: "map-placements" },
          ...placements.map((placement) => {
            const svg = shapeOfPlacement(placement, range, 250);
            svg.setAttribute("role", "img");
            const keys = placement.keys.map((key) => `${key.finger} on ${withAccidentals(key.name)}`);
            svg.setAttribute("aria-label", `${placement.name}: ${keys.join(", ")}`);
            return h(
              "figure",
              { class: "lesson-place" },
              h("figcaption", {}, withAccidentals(placement.name)),
              svg,
            );
          }),
        ),
  );
}
