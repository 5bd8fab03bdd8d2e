/** Plays an exercise where it stands: with click, bass or shells, counted in, again and again; or hears it played. */
import type { Exercise } from "../../src/practice/exercise.ts";
import { h } from "../shell/dom.ts";
import type { Backing, ClickOn } from "../sound/backing.ts";
import { playLine, stopLine } from "../sound/line.ts";
import { answerDesk } from "./answer-desk.ts";
import { exerciseLine } from "./exercise-line.ts";

const ALONG: readonly (readonly [string, readonly Exclude<Backing, "click">[]])[] = [
  ["click", []],
  ["click and bass", ["bass"]],
  ["click and shells", ["shells"]],
  ["click, bass and shells", ["bass", "shells"]],
];

export interface ExerciseStep {
  readonly quartersPerMinute: number;
  readonly clickOn: ClickOn;
}

/** @param step of the tempo plan, as it is chosen when it is played */
export function exercisePlayer(exercise: Exercise, step: () => ExerciseStep): HTMLElement {
  const along = h(
    "select",
    { "aria-label": "What goes along" },
    ...ALONG.map(([words], i) => h("option", { value: i }, words)),
  );
  const loop = h("input", { type: "checkbox" });
  const trouble = h("span", { class: "hint", role: "status" });
  const play = h("button", { type: "button", class: "main", onClick: () => void toggle(false) }, "Play");
  const answer = h("button", { type: "button", onClick: () => void toggle(true) }, "Your turn");
  const desk = answerDesk();
  let playing = false;
  const show = (now: "silent" | "playing" | "answering") => {
    playing = now !== "silent";
    play.textContent = now === "playing" ? "Stop" : "Play";
    answer.textContent = now === "answering" ? "Stop" : "Your turn";
    play.hidden = now === "answering";
    answer.hidden = now === "playing";
  };
  const line = (silent: boolean) => {
    const [, wanted] = ALONG[Number(along.value)] ?? ALONG[0]!;
    const { quartersPerMinute, clickOn } = step();
    return { ...exerciseLine(exercise, quartersPerMinute, wanted, { clickOn, silent }), quartersPerMinute };
  };
  const toggle = async (silent: boolean) => {
    if (playing) {
      stopLine();
      return;
    }
    trouble.textContent = "";
    show(silent ? "answering" : "playing");
    let now = line(silent);
    const make = () => {
      now = line(silent);
      return now;
    };
    try {
      if (silent) desk.open();
      await playLine(
        make,
        () => loop.checked,
        (stage, start) => silent && desk.begin(stage, start, now),
      );
    } catch (error) {
      trouble.textContent = (error as Error).message;
    } finally {
      if (silent) desk.close();
      show("silent");
    }
  };
  return h(
    "div",
    { class: "no-print" },
    h(
      "div",
      { class: "exercise-player" },
      play,
      answer,
      h("label", {}, "with ", along),
      h("label", { class: "choice" }, loop, " again and again"),
      trouble,
    ),
    desk.element,
  );
}
