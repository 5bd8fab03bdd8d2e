/** The frame around every picture: heading, key, choices, saving, the table, the keyboard, and drawing anew at a new width. */
import type { AccountIndex } from "../shell/account-index.ts";
import { fill, h } from "../shell/dom.ts";
import { handlePictureKey } from "../shell/picture-keys.ts";
import type { SelectionStore, StoreChange } from "../shell/selection.ts";
import { saveButtons, tableBelow } from "./picture-tools.ts";
import { keyList, readingChoice } from "./reading-choice.ts";
import type { Actions, Drawing, Marked, View } from "./view.ts";

/** CSS pixels; what is narrower is a window that has not been given its size yet. */
export const LEAST_WIDTH = 160;

export interface Framed {
  readonly element: HTMLElement;
  /** Draws now, whether in sight or not. */
  draw(): void;
  end(): void;
}

/** A picture in its frame; it draws when it comes near the window, and again when its width changes. */
export function frameView(
  view: View,
  index: AccountIndex,
  store: SelectionStore,
  actions: Actions = {},
): Framed {
  const why = view.empty(index);
  const headingId = `${view.id}-title`;
  const element = h("section", { class: `view view-${view.id}`, id: view.id, "aria-labelledby": headingId });
  const heading = h("h2", { id: headingId }, view.title(index));
  if (why !== null) {
    element.append(h("header", {}, heading), h("p", { class: "empty" }, why));
    return { element, draw() {}, end() {} };
  }
  const unitsId = `${view.id}-units`;
  const plot = h("div", {
    class: "plot",
    tabindex: 0,
    role: "application",
    "aria-roledescription": "picture",
    "aria-labelledby": headingId,
    "aria-describedby": unitsId,
  });
  const canvas = canvasIn(plot, view, index, store, actions);
  plot.addEventListener("keydown", (event) => handlePictureKey(event, index, store, actions));
  const key = h("div", { class: "picture-key" });
  const units = h("p", { class: "units", id: unitsId });
  const table = h("div", { class: "table-slot" });
  const say = () => {
    units.textContent = view.units(index);
    key.replaceChildren(...(view.key ? [keyList(view.key(index))] : []));
    table.replaceChildren(tableBelow(view.title(index), () => view.table(index)));
  };
  say();
  const unwatch = store.watch((change) => {
    if (change !== "reading") canvas.mark(change);
    else if (view.readings) {
      say();
      canvas.redraw();
    }
  });
  const controls = view.controls?.({ index, store, actions }, canvas.redraw) ?? [];
  fill(
    element,
    h("header", {}, heading, view.readings ? readingChoice(view.id, store) : null),
    h(
      "div",
      { class: "picture-head" },
      key,
      controls.length > 0 ? h("div", { class: "controls" }, controls) : null,
    ),
    plot,
    units,
    h(
      "footer",
      { class: "picture-foot" },
      table,
      // What was never scrolled to is drawn to be saved.
      saveButtons(view.id, view.title(index), () => canvas.drawn()),
    ),
  );
  return {
    element,
    draw: () => void canvas.drawn(),
    end() {
      unwatch();
      canvas.end();
    },
  };
}

interface Canvas {
  /** The drawing, made now if it was not in sight yet. */
  drawn(): SVGSVGElement | null;
  redraw(): void;
  mark(change: Exclude<StoreChange, "reading">): void;
  end(): void;
}

/** Draws a view into its place at the width that the place has. */
function canvasIn(
  plot: HTMLElement,
  view: View,
  index: AccountIndex,
  store: SelectionStore,
  actions: Actions,
): Canvas {
  let drawing: Drawing | null = null;
  let width = 0;
  const marked = (): Marked => {
    const selection = store.lit ?? store.selection;
    return { selection, notes: index.notesOf(selection), hover: store.hover, playing: store.playing };
  };
  const redraw = () => {
    if (width === 0) return;
    drawing = view.draw({ index, store, actions, width });
    drawing.svg.setAttribute("aria-hidden", "true");
    drawing.svg.setAttribute("width", String(drawing.svg.viewBox.baseVal.width));
    drawing.svg.setAttribute("height", String(drawing.svg.viewBox.baseVal.height));
    plot.replaceChildren(drawing.svg);
    plot.classList.add("drawn");
    drawing.mark(marked(), "selection");
    drawing.mark(marked(), "playing");
  };
  const drawAt = (next: number) => {
    if (next < LEAST_WIDTH || next === width) return;
    width = next;
    redraw();
  };
  const seen = new IntersectionObserver(
    (entries) => {
      if (!entries.some((entry) => entry.isIntersecting)) return;
      seen.disconnect();
      drawAt(plot.clientWidth);
      sized.observe(plot);
    },
    { rootMargin: "500px" },
  );
  const sized = new ResizeObserver(() => drawAt(plot.clientWidth));
  seen.observe(plot);
  return {
    drawn() {
      drawAt(plot.clientWidth);
      return drawing?.svg ?? null;
    },
    redraw,
    mark: (change) => drawing?.mark(marked(), change === "lit" ? "selection" : change),
    end() {
      seen.disconnect();
      sized.disconnect();
    },
  };
}
