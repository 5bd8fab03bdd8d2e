/** A piano keyboard in true proportion: where each key stands, and how it is drawn. */
import { isBlackKey, mod12 } from "../../src/pitch/index.ts";
import { s } from "../shell/dom.ts";
import { bareKeyName } from "../shell/words.ts";

/** Black keys stand a little off the crack between their neighbours, as on a real keyboard. */
const BLACK: Readonly<Record<number, number>> = { 1: 0.6, 3: 1.8, 6: 3.58, 8: 4.7, 10: 5.82 };
const WHITE: Readonly<Record<number, number>> = { 0: 0, 2: 1, 4: 2, 5: 3, 7: 4, 9: 5, 11: 6 };

export interface Keyboard {
  /** Lowest and highest key drawn, both white. */
  readonly low: number;
  readonly high: number;
  readonly width: number;
  readonly whiteWidth: number;
  /** Left edge, centre and width of a key in pixels. */
  left(pitch: number): number;
  centre(pitch: number): number;
  keyWidth(pitch: number): number;
}

/** The keys from `low` to `high` (widened to white keys) over `width` pixels, `x` the left edge. */
export function layKeyboard(low: number, high: number, width: number, x = 0): Keyboard {
  const from = isBlackKey(low) ? low - 1 : low;
  const to = isBlackKey(high) ? high + 1 : high;
  const whites = whiteAt(to) - whiteAt(from) + 1;
  const whiteWidth = width / whites;
  const blackWidth = whiteWidth * 0.6;
  const keyWidth = (pitch: number) => (isBlackKey(pitch) ? blackWidth : whiteWidth);
  const left = (pitch: number) => x + (whiteAt(pitch) - whiteAt(from)) * whiteWidth;
  return {
    low: from,
    high: to,
    width,
    whiteWidth,
    left,
    keyWidth,
    centre: (pitch) => left(pitch) + keyWidth(pitch) / 2,
  };
}

/** Place of a key's left edge in white keys from C-1. */
function whiteAt(pitch: number): number {
  const octave = Math.floor(pitch / 12);
  const step = mod12(pitch);
  return octave * 7 + (WHITE[step] ?? BLACK[step] ?? 0);
}

export interface KeyboardLook {
  readonly y: number;
  readonly height: number;
  /** Names of the Cs: on the keys where it is left out, so many pixels below them, or none. */
  readonly names?: number | false;
  readonly classOf?: (pitch: number) => string;
  readonly onKey?: (pitch: number) => void;
}

/** The keys as SVG, white ones first. */
export function drawKeyboard(keys: Keyboard, look: KeyboardLook): SVGGElement {
  const group = s("g", { class: "keyboard" });
  const pitches = Array.from({ length: keys.high - keys.low + 1 }, (_, i) => keys.low + i);
  for (const black of [false, true]) {
    for (const pitch of pitches) {
      if (isBlackKey(pitch) !== black) continue;
      const key = s("rect", {
        class: `key ${black ? "black" : "white"} ${look.classOf?.(pitch) ?? ""}`,
        x: keys.left(pitch).toFixed(2),
        y: look.y,
        width: keys.keyWidth(pitch).toFixed(2),
        height: black ? look.height * 0.62 : look.height,
        rx: 1,
        "data-pitch": pitch,
      });
      if (look.onKey) key.addEventListener("click", () => look.onKey?.(pitch));
      group.append(key);
    }
  }
  if (look.names !== false) {
    for (const pitch of pitches) {
      if (pitch % 12 !== 0) continue;
      group.append(
        s(
          "text",
          {
            class: typeof look.names === "number" ? "key-name below" : "key-name",
            x: (keys.left(pitch) + keys.whiteWidth / 2).toFixed(2),
            y: look.y + look.height + (look.names === undefined ? -4 : look.names - 1),
            "text-anchor": "middle",
          },
          bareKeyName(pitch),
        ),
      );
    }
  }
  return group;
}
