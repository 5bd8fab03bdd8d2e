/** How every picture shows the selection: what is chosen stays in full ink, the rest steps back; a ring goes with the pointer. */
import { s } from "../shell/dom.ts";
import type { Marked } from "../views/view.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * A marker for signs that stand for one note each.
 *
 * @param signs the element of each note id
 * @param at where a note's ring goes; null when the picture does not show it
 */
export function markSigns(
  svg: SVGSVGElement,
  signs: ReadonlyMap<string, Element>,
  at: (note: string) => Point | null,
  radius = 8,
): (marked: Marked, change: "selection" | "hover" | "playing") => void {
  const ring = s("circle", { class: "ring hover", r: radius, display: "none" });
  const cursor = s("circle", { class: "ring playing", r: radius + 3, display: "none" });
  const chosen = s("circle", { class: "ring chosen", r: radius, display: "none" });
  svg.append(cursor, chosen, ring);
  let on: Element[] = [];

  return (marked, change) => {
    if (change === "hover") moveRing(ring, marked.hover, at);
    else if (change === "playing") moveRing(cursor, marked.playing, at);
    else {
      for (const element of on) element.classList.remove("on");
      on = [];
      for (const id of marked.notes ?? []) {
        const element = signs.get(id);
        if (!element) continue;
        element.classList.add("on");
        on.push(element);
      }
      svg.classList.toggle("has-selection", stepsBack(marked));
      moveRing(chosen, marked.selection.kind === "note" ? marked.selection.note : null, at);
    }
  };
}

/** One note has its ring; only for more than one does the rest step back. */
export function stepsBack(marked: Marked): boolean {
  return marked.notes !== null && marked.selection.kind !== "note";
}

function moveRing(ring: SVGCircleElement, note: string | null, at: (note: string) => Point | null): void {
  const point = note === null ? null : at(note);
  if (!point) {
    ring.setAttribute("display", "none");
    return;
  }
  ring.removeAttribute("display");
  ring.setAttribute("cx", point.x.toFixed(1));
  ring.setAttribute("cy", point.y.toFixed(1));
}
