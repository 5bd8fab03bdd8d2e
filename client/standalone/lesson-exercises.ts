/** The exercises of a take to be read and printed. */
import type { Exercise, PracticeSheet } from "../../src/practice/exercise.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { printedText } from "../findings/finding-words.ts";
import { cautionOf, tempoPlanList } from "../practice/exercise-words.ts";
import { h } from "../shell/dom.ts";

/** `staff` gives the notation of an exercise, or null when there is none. */
export function lessonExercises(
  sheet: PracticeSheet,
  staff: (exercise: Exercise) => Promise<Node> | null,
): HTMLElement {
  return h(
    "section",
    { class: "sheet lesson-exercises", "aria-labelledby": "lesson-exercises" },
    h("h2", { id: "lesson-exercises" }, "What to play next"),
    sheet.exercises.length === 0
      ? h("p", { class: "empty" }, "Nothing in this take leads to an exercise.")
      : null,
    h(
      "div",
      { class: "exercises" },
      ...sheet.exercises.map((exercise, i) => {
        const place = h("div", { class: "exercise-staff" });
        void staff(exercise)?.then(
          (drawn) => place.replaceChildren(drawn),
          () => place.replaceChildren(h("p", { class: "hint" }, "The notation could not be drawn.")),
        );
        return h(
          "section",
          { class: "exercise", "data-exercise": exercise.id },
          h("h3", {}, `${i + 1}. ${printedText(exercise.title)}, in ${withAccidentals(exercise.key)}`),
          h("p", {}, printedText(exercise.text)),
          place,
          tempoPlanList(exercise),
        );
      }),
    ),
    cautionOf(sheet.exercises),
  );
}
