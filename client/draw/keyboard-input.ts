/** A drawn keyboard that is pressed by pointer or by the computer's keyboard: arrows walk, Space and Enter press. */
import { h, s } from "../shell/dom.ts";
import { bareKeyName } from "../shell/words.ts";
import { drawKeyboard, type Keyboard, layKeyboard } from "./keyboard.ts";

export interface KeyboardInput {
  readonly element: HTMLElement;
  readonly keys: Keyboard;
  /** Room for marks on the keys. */
  readonly marks: SVGGElement;
  /** Shows a key as held, or not. */
  hold(pitch: number, held: boolean): void;
}

export interface KeyboardInputLook {
  readonly low: number;
  readonly high: number;
  /** What the keys are for, to be read out. */
  readonly label: string;
  /** "checkbox" keys stay down until pressed again; "button" keys are struck. */
  readonly role: "checkbox" | "button";
}

const WIDTH = 700;

export function keyboardInput(look: KeyboardInputLook, press: (pitch: number) => void): KeyboardInput {
  const keys = layKeyboard(look.low, look.high, WIDTH);
  const svg = s("svg", {
    viewBox: `0 0 ${WIDTH} 130`,
    class: "press-keys",
    role: "group",
    "aria-label": look.label,
  });
  const board = drawKeyboard(keys, { y: 2, height: 124 });
  const marks = s("g", { class: "spots" });
  svg.append(board, marks);
  const rects = [...board.querySelectorAll<SVGRectElement>(".key")].sort(
    (a, b) => Number(a.dataset.pitch) - Number(b.dataset.pitch),
  );
  const byPitch = new Map(rects.map((rect) => [Number(rect.dataset.pitch), rect]));
  rects.forEach((rect, i) => {
    const pitch = Number(rect.dataset.pitch);
    rect.setAttribute("role", look.role);
    if (look.role === "checkbox") rect.setAttribute("aria-checked", "false");
    rect.setAttribute("aria-label", bareKeyName(pitch));
    rect.setAttribute("tabindex", i === 0 ? "0" : "-1");
    rect.addEventListener("click", () => press(pitch));
    rect.addEventListener("keydown", (event) => {
      const step = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
      if (step !== 0) {
        const next = rects[i + step];
        if (next) {
          rect.setAttribute("tabindex", "-1");
          next.setAttribute("tabindex", "0");
          next.focus();
        }
      } else if (event.key === " " || event.key === "Enter") press(pitch);
      else return;
      event.preventDefault();
    });
  });
  return {
    element: h("div", { class: "press-board" }, svg),
    keys,
    marks,
    hold(pitch, held) {
      const rect = byPitch.get(pitch);
      rect?.classList.toggle("held", held);
      if (look.role === "checkbox") rect?.setAttribute("aria-checked", String(held));
    },
  };
}
