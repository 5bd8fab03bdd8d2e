/** Plays an exercise where it stands: with click, bass or shells, counted in, again and again. */
import type { Exercise } from "../../src/practice/exercise.ts";
import { h } from "../shell/dom.ts";
import type { Backing } from "../sound/backing.ts";
import { playLine, stopLine } from "../sound/line.ts";
import { exerciseLine } from "./exercise-line.ts";

const ALONG: readonly (readonly [string, readonly Exclude<Backing, "click">[]])[] = [
  ["click", []],
  ["click and bass", ["bass"]],
  ["click and shells", ["shells"]],
  ["click, bass and shells", ["bass", "shells"]],
];

/** @param tempo quarter notes a minute, as it is chosen when it is played */
export function exercisePlayer(exercise: Exercise, tempo: () => number): HTMLElement {
  const along = h(
    "select",
    { "aria-label": "What goes along" },
    ...ALONG.map(([words], i) => h("option", { value: i }, words)),
  );
  const loop = h("input", { type: "checkbox" });
  const trouble = h("span", { class: "hint", role: "status" });
  const button = h("button", { type: "button", class: "main", onClick: () => void toggle() }, "Play");
  let playing = false;
  const toggle = async () => {
    if (playing) {
      stopLine();
      return;
    }
    trouble.textContent = "";
    playing = true;
    button.textContent = "Stop";
    try {
      const [, wanted] = ALONG[Number(along.value)] ?? ALONG[0]!;
      await playLine(
        () => exerciseLine(exercise, tempo(), wanted),
        () => loop.checked,
      );
    } catch (error) {
      trouble.textContent = (error as Error).message;
    } finally {
      playing = false;
      button.textContent = "Play";
    }
  };
  return h(
    "div",
    { class: "exercise-player no-print" },
    button,
    h("label", {}, "with ", along),
    h("label", { class: "choice" }, loop, " again and again"),
    trouble,
  );
}
