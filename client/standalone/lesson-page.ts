/** A take to be read: its words, its pictures, what to play next, linked by one selection; nothing can be changed. */
import type { Lesson } from "../../src/findings/lesson.ts";
import type { Exercise } from "../../src/practice/exercise.ts";
import { clock, count, tempoMark, withAccidentals } from "../../src/words/index.ts";
import { type AccountIndex, indexAccount } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { day } from "../shell/words.ts";
import { readingDesk } from "../take/reading-desk.ts";
import { readingPanel } from "../take/selection-text.ts";
import type { Framed } from "../views/frame.ts";
import type { Actions } from "../views/view.ts";
import { lessonExercises } from "./lesson-exercises.ts";
import { lessonFindings } from "./lesson-findings.ts";

export interface LessonParts {
  /** Stands at the top of the margin: where one can listen. */
  readonly listen?: (index: AccountIndex) => { element: HTMLElement; toggle(): void; end(): void };
  /** Notation of an exercise, or null when there is none. */
  readonly staff: (exercise: Exercise) => Promise<Node> | null;
  /** Links and words below the heading. */
  readonly ways?: readonly Node[];
}

export function lessonPage(
  lesson: Lesson,
  store: SelectionStore,
  parts: LessonParts,
): { element: HTMLElement; picture: Framed; end(): void } {
  const index = indexAccount(lesson.analysis);
  const listen = parts.listen?.(index);
  const actions: Actions = listen ? { play: () => listen.toggle() } : {};
  const { picture, beside, end: endDesk } = readingDesk(index, store, actions);
  const findings = lessonFindings(lesson, store, () => {
    const behavior = matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth";
    picture.element.scrollIntoView({ block: "start", behavior });
  });
  const reading = readingPanel(index, store);
  const { take } = lesson;
  return {
    element: h(
      "div",
      { class: "stack lesson" },
      h(
        "header",
        { class: "take-head" },
        h("h1", {}, take.title),
        h(
          "p",
          { class: "take-meta" },
          [take.player, day(take.date), take.chartName, withAccidentals(take.key)].filter(Boolean).join(", "),
        ),
        factLine(index),
        ...(parts.ways ?? []),
      ),
      findings.element,
      h(
        "div",
        { class: "desk" },
        h("div", { class: "pictures" }, picture.element),
        h(
          "aside",
          { class: "margin", "aria-label": "Words beside the pictures" },
          listen?.element ?? null,
          reading.element,
          beside,
        ),
      ),
      lessonExercises(lesson.sheet, parts.staff),
    ),
    picture,
    end() {
      endDesk();
      findings.end();
      reading.end();
      listen?.end();
    },
  };
}

function factLine({ analysis, solo }: AccountIndex): HTMLElement {
  const { alignment, chart, source } = analysis;
  return h(
    "p",
    { class: "take-facts" },
    [
      `${count(alignment.choruses, "chorus", "choruses")} of ${chart.bars.length} bars`,
      `${solo.length} solo notes`,
      alignment.tempo ? tempoMark(alignment.tempo.median) : null,
      clock(source.seconds),
    ]
      .filter(Boolean)
      .join(" · "),
  );
}
