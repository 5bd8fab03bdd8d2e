/** Noteheads of the page's own: the engraver has no shapes for most roles, so its heads give way to the signs. */
import type { HarmonicRole } from "../../src/harmony/roles.ts";
import { staffSign } from "../draw/role-marks.ts";
import { s } from "../shell/dom.ts";

/** Units of the engraver's drawing: half the width of its notehead, which is 1.18 staff spaces of 180. */
const HALF_HEAD = 106;
const RADIUS = 92;
/** SMuFL: noteheadDoubleWhole, noteheadWhole and noteheadHalf, and the long shapes that the engraver draws for others. */
const LONG = /E0A[0-3]|E0D9|E0DA|E103|E102|E0B6|E0B5/;

/** Puts the sign of `role` in place of the head of a written note. */
export function signForHead(note: Element, role: HarmonicRole | null): void {
  for (const head of note.querySelectorAll(".notehead")) {
    const glyph = head.querySelector("use");
    const place = /translate\(\s*([-\d.]+)[ ,]+([-\d.]+)\s*\)/.exec(glyph?.getAttribute("transform") ?? "");
    if (!glyph || !place || role === null) continue;
    const scale = Number(/scale\(\s*([\d.]+)/.exec(glyph.getAttribute("transform")!)?.[1] ?? 0.72) / 0.72;
    const { d, filled } = staffSign(role, LONG.test(glyph.getAttribute("href") ?? ""), RADIUS * scale);
    const x = Number(place[1]) + HALF_HEAD * scale;
    head.replaceChildren(
      s("path", {
        class: filled ? "head-sign filled" : "head-sign",
        d,
        transform: `translate(${x},${place[2]})`,
        // For a picture that leaves the page, and its style sheet with it.
        fill: filled ? "currentColor" : "none",
        // Half of a blue note's disc stays open.
        "fill-rule": "evenodd",
        stroke: "currentColor",
        "stroke-width": 26,
      }),
    );
  }
}
