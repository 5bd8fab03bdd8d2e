/** Handles on the bar lines of the chorus page: drag one to where the bar really starts. */
import { drag, select } from "d3";
import { s } from "../shell/dom.ts";
import type { Mark, Paper } from "./readings/reading.ts";
import type { Scene } from "./view.ts";

/** Pixels to either side of a line at which it can be taken hold of; a finger needs more than a pointer. */
const REACH = matchMedia("(pointer: coarse)").matches ? 11 : 4;

/**
 * The handles of the rows that are drawn, when the page can pin a moment. What is dragged is the moment: a bar line moved by a third of
 * a bar starts a third of that bar's performed time later.
 */
export function barLineHandles(svg: SVGSVGElement, scene: Scene, { layout, shows }: Paper): Mark[] {
  const { pin } = scene.actions;
  if (!pin || scene.index.analysis.alignment.method === "notated") return [];
  const marks: Mark[] = [];
  for (const time of scene.index.analysis.alignment.bars) {
    const cell = layout.cell(time.chorus, time.bar);
    if (!cell || time.bar < 1 || !shows(cell.y)) continue;
    const handle = s("rect", {
      class: "handle",
      x: cell.x - REACH,
      y: cell.y,
      width: 2 * REACH,
      height: layout.rowHeight,
      "data-handle": `${time.chorus}.${time.bar}`,
    });
    const guide = s("path", { class: "guide", display: "none" });
    const secondsAt = (x: number): number => {
      const previous = scene.index.bar(time.chorus, time.bar - 1);
      const share = (x - cell.x) / cell.width;
      const length = share < 0 && previous ? previous.end - previous.start : time.end - time.start;
      return time.start + share * length;
    };
    let x = cell.x;
    select(handle).call(
      drag<SVGRectElement, unknown>()
        .container(() => svg)
        .on("start", () => guide.removeAttribute("display"))
        .on("drag", (event: { x: number }) => {
          const reach = cell.width * 0.95;
          x = Math.min(cell.x + reach, Math.max(cell.x - reach, event.x));
          guide.setAttribute("d", `M${x.toFixed(1)},${cell.y}v${layout.rowHeight}`);
        })
        .on("end", () => {
          guide.setAttribute("display", "none");
          if (Math.abs(x - cell.x) > 2) {
            pin({ seconds: Number(secondsAt(x).toFixed(3)), chorus: time.chorus, bar: time.bar, beat: 1 });
          }
        }),
    );
    // Two short strokes across the foot of the line, as on what can be taken hold of; brackets and bows stand at its head.
    const foot = cell.y + layout.rowHeight - 7;
    const grip = s("path", { class: "handle grip", d: `M${cell.x - 3},${foot}h6m-6,3h6` });
    marks.push({ element: s("g", {}, grip, handle, guide), notes: [], y: cell.y });
  }
  return marks;
}
