/** The keyboard of the record page: as many keys as there is room for, played by touch, with where the hand may stand. */
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { drawKeyboard, type Keyboard, layKeyboard } from "../draw/keyboard.ts";
import { h, s } from "../shell/dom.ts";
import type { Played } from "./key-input.ts";
import { isPart, keyAt, keysFor } from "./keys-to-draw.ts";

export interface StageKeys {
  readonly element: HTMLElement;
  press(pitch: number, down: boolean): void;
  /** The placement under way, and the keys of the next one. */
  place(now: Standing, next: Standing): void;
  clear(): void;
  /** Draws as many keys as the width holds from now on. */
  end(): void;
}

export type Standing = PlacementMap["chords"][number]["placements"][number] | undefined;

/** What the delay of touches is kept under. */
const TOUCH = "the drawn keys";

/** Pixels: keys are longer on a phone, where a thumb plays them. */
const HIGH = 112;
const PHONE = { width: 640, high: 148 };
/** Part of a white key that a black one is long, as `drawKeyboard` draws it. */
const BLACK_PART = 0.62;

/** @param touched told of keys that are pressed on the drawing itself */
export function stageKeys(touched: (event: Played) => void): StageKeys {
  const board = s("svg", {
    class: "record-keys",
    role: "img",
    "aria-label": "Keyboard: shows the keys that are pressed, and is played by touch",
  });
  let octaves = 0;
  let keys: Keyboard = layKeyboard(60, 79, 340);
  let high = HIGH;
  let shown: readonly [Standing, Standing] = [undefined, undefined];
  const down = new Set<number>();
  const marks = s("g", {});
  const move = (by: number) => {
    octaves += by;
    draw(board.getBoundingClientRect().width);
  };
  const moves = h(
    "div",
    { class: "keys-moves", hidden: true },
    h("button", { type: "button", onClick: () => move(-1) }, "An octave lower"),
    h("button", { type: "button", onClick: () => move(1) }, "An octave higher"),
  );

  function draw(width: number): void {
    if (width <= 0) return;
    const range = keysFor(width, octaves);
    // A press at the end of the piano is not counted.
    octaves = (range.low - keysFor(width).low) / 12;
    high = width < PHONE.width ? PHONE.high : HIGH;
    keys = layKeyboard(range.low, range.high, width);
    moves.hidden = !isPart(range);
    board.setAttribute("viewBox", `0 0 ${width} ${high}`);
    board.style.height = `${high}px`;
    const classOf = (pitch: number) => (down.has(pitch) ? "under" : "");
    board.replaceChildren(drawKeyboard(keys, { y: 1, height: high - 2, classOf }), marks);
    showPlacement(marks, keys, high, ...shown);
  }

  playByTouch(board, () => keys, touched);
  // A tablet that is turned has room for other keys.
  const watch = new ResizeObserver(() => draw(board.getBoundingClientRect().width));
  watch.observe(board);
  return {
    element: h("div", { class: "keys-box" }, board, moves),
    press(pitch, pressed) {
      if (pressed) down.add(pitch);
      else down.delete(pitch);
      board.querySelector(`[data-pitch="${pitch}"]`)?.classList.toggle("under", pressed);
    },
    place(now, next) {
      shown = [now, next];
      showPlacement(marks, keys, high, now, next);
    },
    clear() {
      shown = [undefined, undefined];
      marks.replaceChildren();
    },
    end: () => watch.disconnect(),
  };
}

/** A finger or a mouse on a drawn key plays it until it is let go. */
function playByTouch(board: SVGSVGElement, drawn: () => Keyboard, play: (event: Played) => void): void {
  const held = new Map<number, number>();
  board.addEventListener("pointerdown", (event) => {
    const keys = drawn();
    const box = board.getBoundingClientRect();
    const x = ((event.clientX - box.left) * keys.width) / box.width;
    const pitch = keyAt(keys, x, (event.clientY - box.top) / box.height, BLACK_PART);
    if (pitch === null) return;
    event.preventDefault();
    held.set(event.pointerId, pitch);
    board.setPointerCapture(event.pointerId);
    play({ pitch, velocity: 84, at: event.timeStamp, from: TOUCH });
  });
  for (const end of ["pointerup", "pointercancel"] as const) {
    board.addEventListener(end, (event) => {
      const pitch = held.get(event.pointerId);
      if (pitch === undefined) return;
      held.delete(event.pointerId);
      play({ pitch, velocity: 0, at: event.timeStamp, from: TOUCH });
    });
  }
}

/** The placement under way with its fingers, and the keys of the next one as rings, where it is another one. */
function showPlacement(
  marks: SVGGElement,
  keys: Keyboard,
  high: number,
  placement: Standing,
  next: Standing,
): void {
  const shown = (one: Standing) =>
    (one?.keys ?? []).filter(({ pitch }) => pitch >= keys.low && pitch <= keys.high);
  const at = (key: { readonly pitch: number; readonly black: boolean }) =>
    ({ x: keys.centre(key.pitch), y: high * (key.black ? 0.46 : 0.8) }) as const;
  const now = new Set(shown(placement).map(({ pitch }) => pitch));
  marks.replaceChildren(
    ...shown(next)
      .filter(({ pitch }) => !now.has(pitch))
      .map((key) =>
        s("circle", { class: "finger-next", cx: at(key).x.toFixed(1), cy: at(key).y.toFixed(1), r: 7 }),
      ),
    ...shown(placement).flatMap((key) => {
      const { x, y } = at(key);
      return [
        s("circle", { class: "finger-spot", cx: x.toFixed(1), cy: y.toFixed(1), r: 8 }),
        s(
          "text",
          { class: "finger-number", x: x.toFixed(1), y: (y + 4).toFixed(1), "text-anchor": "middle" },
          key.finger,
        ),
      ];
    }),
  );
}
