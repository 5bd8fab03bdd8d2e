/** A short figure as notes in time and pitch, what stands around it pale. */
import { s } from "../shell/dom.ts";

export interface ThumbnailNote {
  readonly pitch: number;
  /** Any unit of time, rising. */
  readonly at: number;
  readonly within: boolean;
}

const HEIGHT = 40;

export function drawMelody(notes: readonly ThumbnailNote[], width: number, label: string): SVGSVGElement {
  const low = Math.min(...notes.map((note) => note.pitch));
  const high = Math.max(...notes.map((note) => note.pitch));
  const from = notes[0]?.at ?? 0;
  const to = notes.at(-1)?.at ?? 1;
  const x = (at: number) => 6 + ((at - from) / Math.max(1e-6, to - from)) * (width - 12);
  const y = (pitch: number) => HEIGHT - 7 - ((pitch - low) / Math.max(5, high - low)) * (HEIGHT - 14);
  const own = notes.filter((note) => note.within);
  return s(
    "svg",
    {
      viewBox: `0 0 ${width} ${HEIGHT}`,
      width,
      height: HEIGHT,
      class: "figure-drawing",
      role: "img",
      "aria-label": label,
    },
    s("path", {
      class: "figure-line",
      d: own
        .map((note, i) => `${i === 0 ? "M" : "L"}${x(note.at).toFixed(1)},${y(note.pitch).toFixed(1)}`)
        .join(""),
    }),
    ...notes.map((note) =>
      s("circle", {
        class: note.within ? "figure-dot" : "figure-dot around",
        cx: x(note.at).toFixed(1),
        cy: y(note.pitch).toFixed(1),
        r: note.within ? 3.2 : 2.2,
      }),
    ),
  );
}
