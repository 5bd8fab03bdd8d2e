/** A hand shape on a piece of keyboard: fingers on their keys, slides as bows, keys shared with the next chord underlined. */
import type { HandShape } from "../../src/hands/shape.ts";
import { isBlackKey } from "../../src/pitch/index.ts";
import { s } from "../shell/dom.ts";
import { drawKeyboard, layKeyboard } from "./keyboard.ts";

export interface ShapeKey {
  readonly pitch: number;
  readonly finger: number;
  readonly anchor?: boolean;
  /** Written on or under the key: the note's name or degree. */
  readonly word?: string;
  readonly common?: boolean;
}

export interface ShapeDrawing {
  readonly keys: readonly ShapeKey[];
  readonly slides?: readonly { readonly from: number; readonly to: number; readonly bold: boolean }[];
  readonly low: number;
  readonly high: number;
  readonly width: number;
}

/** Height of the drawing in pixels, with words under its keys and without. */
export const SHAPE_HEIGHT = 98;
const BARE_HEIGHT = 70;

export function drawShape(drawing: ShapeDrawing): SVGSVGElement {
  const { keys, slides = [], low, high, width } = drawing;
  const board = layKeyboard(low, high, width - 2, 1);
  const height = keys.some(({ word }) => word !== undefined) ? SHAPE_HEIGHT : BARE_HEIGHT;
  const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, class: "shape-keys", width, height });
  const held = new Set(keys.map((key) => key.pitch));
  const top = 16;
  const tall = 50;
  svg.append(
    drawKeyboard(board, {
      y: top,
      height: tall,
      names: false,
      classOf: (pitch) => (held.has(pitch) ? "held" : ""),
    }),
  );
  for (const key of keys) {
    const x = board.centre(key.pitch);
    const y = top + tall * (isBlackKey(key.pitch) ? 0.42 : 0.8);
    svg.append(
      s("circle", {
        class: key.anchor ? "finger-spot anchor-spot" : "finger-spot",
        cx: x.toFixed(1),
        cy: y.toFixed(1),
        r: Math.min(8, board.whiteWidth * 0.44).toFixed(1),
        "data-pitch": key.pitch,
        "data-finger": key.finger,
      }),
      s(
        "text",
        { class: "finger-number", x: x.toFixed(1), y: (y + 4).toFixed(1), "text-anchor": "middle" },
        key.finger,
      ),
    );
    // Words of black keys stand a line lower, so that neighbours do not run into each other.
    const word = top + tall + (isBlackKey(key.pitch) ? 28 : 14);
    if (key.word) {
      svg.append(
        s(
          "text",
          {
            class: `key-word${key.common ? " common" : ""}`,
            x: x.toFixed(1),
            y: word,
            "text-anchor": "middle",
          },
          key.word,
        ),
      );
    }
    if (key.common) {
      svg.append(s("path", { class: "common-line", d: `M${(x - 6).toFixed(1)},${word + 3}h12` }));
    }
  }
  for (const slide of slides) {
    const [x1, x2] = [board.centre(slide.from), board.centre(slide.to)];
    svg.append(
      s("path", {
        class: slide.bold ? "slide bold" : "slide",
        d: `M${x1.toFixed(1)},${top + 2}C${x1.toFixed(1)},0 ${x2.toFixed(1)},0 ${x2.toFixed(1)},${top + 2}m-3,-5l3,5l3,-5`,
        "data-from": slide.from,
        "data-to": slide.to,
      }),
    );
  }
  return svg;
}

/** A hand shape with its lowest finger on the A below middle C. */
export function shapeFromA(shape: HandShape, width: number): SVGSVGElement {
  return drawShape({
    keys: shape.semitones.map((step, i) => ({
      pitch: 57 + step,
      finger: shape.fingers[i]!,
      anchor: shape.fingers[i] === shape.anchorFinger,
    })),
    low: 55,
    high: 76,
    width,
  });
}
