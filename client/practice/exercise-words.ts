/** How an exercise is written on a page. */
import type { Exercise, TempoStep } from "../../src/practice/exercise.ts";
import { count, tempoMark } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";

function stepWords(step: TempoStep): string {
  if (step.quartersPerMinute === null) return `free time, ${count(step.rounds, "round")}`;
  const click =
    step.click === "none" ? "" : step.click === "every beat" ? ", click on every beat" : ", click on 2 and 4";
  return `${tempoMark(step.quartersPerMinute)}${click}, ${count(step.rounds, "clean round")}`;
}

export function tempoPlanList(exercise: Exercise): HTMLElement {
  return h(
    "ol",
    { class: "tempo-plan", "aria-label": "Tempo plan" },
    ...exercise.tempoPlan.map((step) => h("li", {}, stepWords(step))),
  );
}

/** The care of the hand, once for the whole sheet; null where no exercise reaches wide. */
export function cautionOf(exercises: readonly Exercise[]): HTMLElement | null {
  const caution = exercises.find((exercise) => exercise.caution !== null)?.caution;
  return caution ? h("p", { class: "hint caution" }, caution) : null;
}
