/** The frame around every picture: heading, units, choices, saving, the table, the keyboard, and drawing anew at a new width. */
import type { AccountIndex } from "../shell/account-index.ts";
import { fill, h } from "../shell/dom.ts";
import { handlePictureKey } from "../shell/picture-keys.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { saveButtons, tableBelow } from "./picture-tools.ts";
import type { Actions, Drawing, View } from "./view.ts";

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
  const unitsId = `${view.id}-units`;
  const element = h("section", { class: `view view-${view.id}`, id: view.id, "aria-labelledby": headingId });
  const heading = h("h2", { id: headingId }, view.title(index));
  const units = h("p", { class: "units", id: unitsId }, view.units(index));
  if (why !== null) {
    element.append(h("header", {}, heading), h("p", { class: "empty" }, why));
    return { element, draw() {}, end() {} };
  }

  const plot = h("div", {
    class: "plot",
    tabindex: 0,
    role: "application",
    "aria-roledescription": "picture",
    "aria-labelledby": headingId,
    "aria-describedby": unitsId,
  });
  let drawing: Drawing | null = null;
  let width = 0;

  const marked = () => ({
    selection: store.selection,
    notes: index.notesOf(store.selection),
    hover: store.hover,
    playing: store.playing,
  });
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
  const unwatch = store.watch((change) => drawing?.mark(marked(), change));
  plot.addEventListener("keydown", (event) => handlePictureKey(event, index, store, actions));

  const controls = view.controls?.({ index, store, actions }, redraw) ?? [];
  fill(
    element,
    h(
      "header",
      {},
      heading,
      // What was never scrolled to is drawn to be saved.
      saveButtons(view.id, view.title(index), () => {
        drawAt(plot.clientWidth);
        return drawing?.svg ?? null;
      }),
    ),
    units,
    controls.length > 0 ? h("div", { class: "controls" }, controls) : null,
    plot,
    tableBelow(view.title(index), () => view.table(index)),
  );
  return {
    element,
    draw() {
      drawAt(plot.clientWidth);
    },
    end() {
      unwatch();
      seen.disconnect();
      sized.disconnect();
    },
  };
}
