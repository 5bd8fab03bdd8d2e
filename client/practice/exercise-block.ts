/** One exercise on the practice sheet: its notation, its tempo plan, and its files at the chosen tempo. */
import { inLinesOf, inShortWords } from "../../src/export/engraving.ts";
import type { Exercise } from "../../src/practice/exercise.ts";
import { tempoMark, withAccidentals } from "../../src/words/index.ts";
import { printedText } from "../findings/finding-words.ts";
import { fetchText } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { withoutNames } from "../staff/engraved.ts";
import { saveStaffButtons } from "../staff/save-staff.ts";
import { exerciseTable } from "../views/exercise-table.ts";
import { tableBelow } from "../views/picture-tools.ts";
import { exercisePlayer } from "./exercise-player.ts";
import { tempoPlanList } from "./exercise-words.ts";

/** Path below the API of one of an exercise's files. */
export type Address = (file: string, more?: Readonly<Record<string, string>>) => string;

const PLAY_ALONG: readonly (readonly [string, string])[] = [
  ["click", "none"],
  ["click and bass", "walking bass"],
  ["click and shells", "shells"],
];

const SLOW = 80;

/**
 * CSS pixels between the margins of A4 (210 - 2 · 14 mm, the narrower paper): a staff engraved no wider is printed as
 * large as it is seen.
 */
export const PAPER = 680;

/** CSS pixels in which four bars of eighths can be read on one line. */
const FOUR_BARS = 560;

/** Bars on a line where four cannot be read: no exercise is then pressed together by more than about a quarter. */
const ON_A_PHONE = 2;

/** The score of an exercise with lines that can be read in so many CSS pixels. */
export const inReadableLines = (musicXml: string, width: number): string =>
  inShortWords(width >= FOUR_BARS ? musicXml : inLinesOf(musicXml, ON_A_PHONE), width);

/** @param why says what it follows from, where that can be seen */
export function exerciseBlock(
  exercise: Exercise,
  place: number,
  why: HTMLElement | null,
  address: Address,
): HTMLElement {
  const steps = exercise.tempoPlan.filter((step) => step.quartersPerMinute !== null);
  const tempo = h(
    "select",
    { "aria-label": "Step of the tempo plan" },
    ...(steps.length === 0
      ? [h("option", { value: `${SLOW},every beat` }, tempoMark(SLOW))]
      : steps.map((step) =>
          h(
            "option",
            { value: `${step.quartersPerMinute},${step.click}` },
            tempoMark(step.quartersPerMinute!),
          ),
        )),
  );
  const links = PLAY_ALONG.map(([words, backing]) => ({
    backing,
    link: h("a", { download: true }, `MIDI with ${words}`),
  }));
  const follow = () => {
    const [speed = String(SLOW), click = "every beat"] = tempo.value.split(",");
    for (const { backing, link } of links) {
      link.setAttribute("href", `/api${address("play-along.mid", { backing, tempo: speed, click })}`);
    }
  };
  tempo.addEventListener("change", follow);
  follow();
  const heading = `exercise-${exercise.id}`;
  const staff = h("div", { class: "exercise-staff" }, h("p", { class: "hint" }, "Engraving …"));
  return h(
    "section",
    { class: "exercise", "data-exercise": exercise.id, "aria-labelledby": heading },
    h("h2", { id: heading }, `${place}. ${printedText(exercise.title)}, in ${withAccidentals(exercise.key)}`),
    h("p", {}, printedText(exercise.text)),
    why,
    staff,
    exercisePlayer(exercise, () => {
      const [speed, click] = tempo.value.split(",");
      return { quartersPerMinute: Number(speed), clickOn: click === "two and four" ? click : "every beat" };
    }),
    tempoPlanList(exercise),
    h(
      "div",
      { class: "finding-tools no-print" },
      h("a", { href: `/api${address("score.musicxml")}`, download: true }, "MusicXML"),
      ...links.map(({ link }) => link),
      tempo,
      saveStaffButtons(`exercise ${place}`, () => [...staff.querySelectorAll<SVGSVGElement>(":scope > svg")]),
    ),
    tableBelow(`${printedText(exercise.title)}, in ${withAccidentals(exercise.key)}`, () =>
      exerciseTable(exercise),
    ),
  );
}

/** One after the other, so that the first can be read while the last is drawn. */
export async function engraveExercises(
  list: HTMLElement,
  exercises: readonly Exercise[],
  score: (exercise: Exercise) => string,
): Promise<void> {
  const { engrave } = await import("../staff/engraver.ts");
  for (const exercise of exercises) {
    const slot = list.querySelector<HTMLElement>(`[data-exercise="${exercise.id}"] .exercise-staff`);
    if (!slot) continue;
    try {
      const width = Math.min(PAPER, Math.max(320, slot.clientWidth));
      const xml = inReadableLines(await fetchText(score(exercise)), width);
      const pages = await engrave(xml, { width, scale: 38, ownBreaks: true });
      slot.replaceChildren(...pages.map(withoutNames));
    } catch (error) {
      slot.replaceChildren(refusalNote(error));
    }
  }
}
