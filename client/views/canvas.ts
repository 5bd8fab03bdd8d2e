/** The place of a picture: it draws when it comes near the window, again at a new width, and in pieces on paper. */
import type { AccountIndex } from "../shell/account-index.ts";
import type { SelectionStore, StoreChange } from "../shell/selection.ts";
import { onPaper, PAPER_WIDTH } from "./on-paper.ts";
import { scrolledPlot } from "./scrolled-plot.ts";
import type { Actions, Drawing, Marked, Scene, View } from "./view.ts";

/** CSS pixels; what is narrower is a window that has not been given its size yet. */
export const LEAST_WIDTH = 160;

/** A picture taller than so many windows scrolls in its own frame. */
const WINDOWS = 2;

/** How tall a piece for paper may be, as a share of its width: a letter page within its margins is 1.34, less a heading. */
const PAPER = 1.2;

export interface Canvas {
  /** Draws now if it was not in sight yet. */
  draw(): void;
  redraw(): void;
  mark(change: Exclude<StoreChange, "reading">): void;
  /** Hands on the whole drawing, as it stands in the page for as long as `use` runs; null where there is none. */
  whole<T>(use: (svg: SVGSVGElement) => T): T | null;
  end(): void;
}

/** Draws a view into its place at the width that the place has. */
export function canvasIn(
  plot: HTMLElement,
  view: View,
  index: AccountIndex,
  store: SelectionStore,
  actions: Actions,
): Canvas {
  let drawing: Drawing | null = null;
  let width = 0;
  const frame = scrolledPlot(plot);
  const scene = (tallest: number): Scene => ({ index, store, actions, width, tallest });
  const marked = () => markedIn(index, store);
  const redraw = () => {
    if (width === 0) return;
    drawing = prepared(view.draw(scene(WINDOWS * innerHeight)), marked());
    frame.set(drawing);
    plot.classList.add("drawn");
    frame.follow(marked(), "selection");
  };
  const drawAt = (next: number) => {
    if (next < LEAST_WIDTH || next === width) return;
    width = next;
    redraw();
    // A frame that scrolls has given some of its width to the scroll bar.
    if (drawing?.scrolled && plot.clientWidth !== width) {
      width = plot.clientWidth;
      redraw();
    }
  };
  const draw = () => drawAt(plot.clientWidth);
  const seen = new IntersectionObserver(
    (entries) => {
      if (!entries.some((entry) => entry.isIntersecting)) return;
      seen.disconnect();
      draw();
      sized.observe(plot);
    },
    { rootMargin: "500px" },
  );
  const sized = new ResizeObserver(draw);
  seen.observe(plot);
  const endPaper = onPaper(
    () => {
      if (plot.clientWidth >= LEAST_WIDTH) draw();
      const across = Math.min(width, PAPER_WIDTH);
      if (!drawing || (across === width && drawing.svg.viewBox.baseVal.height <= width * PAPER)) return;
      const paper = { ...scene(Number.POSITIVE_INFINITY), width: across };
      const pieces = view.pieces?.(paper, across * PAPER) ?? [view.draw(paper)];
      plot.replaceChildren(...pieces.map((one) => prepared(one, marked()).svg));
    },
    () => {
      if (drawing && drawing.svg.parentElement !== plot) frame.set(drawing);
    },
  );
  return {
    draw,
    redraw,
    mark(change) {
      if (!drawing) return;
      const now = marked();
      drawing.mark(now, change === "lit" ? "selection" : change);
      if (change !== "hover") frame.follow(now, change);
    },
    whole(use) {
      draw();
      if (!drawing) return null;
      if (!drawing.scrolled) return use(drawing.svg);
      return standing(plot, prepared(view.draw(scene(Number.POSITIVE_INFINITY)), marked()).svg, use);
    },
    end() {
      seen.disconnect();
      sized.disconnect();
      frame.end();
      endPaper();
    },
  };
}

/** What stands out now: what is pointed at from elsewhere comes before what is chosen. */
function markedIn(index: AccountIndex, store: SelectionStore): Marked {
  const selection = store.lit ?? store.selection;
  return {
    selection,
    lit: store.lit !== null,
    notes: index.notesOf(selection),
    hover: store.hover,
    playing: store.playing,
  };
}

/** Styles are read off the page, so a drawing that is saved stands in it for as long as that takes. */
function standing<T>(plot: HTMLElement, svg: SVGSVGElement, use: (svg: SVGSVGElement) => T): T {
  plot.append(svg);
  try {
    return use(svg);
  } finally {
    svg.remove();
  }
}

/** A drawing at its own size, hidden from those who read the table instead, with what is chosen and played. */
function prepared(drawing: Drawing, marked: Marked): Drawing {
  const { svg } = drawing;
  svg.setAttribute("aria-hidden", "true");
  svg.setAttribute("width", String(svg.viewBox.baseVal.width));
  svg.setAttribute("height", String(svg.viewBox.baseVal.height));
  drawing.mark(marked, "selection");
  drawing.mark(marked, "playing");
  return drawing;
}
