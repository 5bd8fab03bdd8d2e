/** The frame around every picture: heading, key, choices, saving, the table, the keyboard. */
import type { AccountIndex } from "../shell/account-index.ts";
import { fill, h } from "../shell/dom.ts";
import { handlePictureKey } from "../shell/picture-keys.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { canvasIn } from "./canvas.ts";
import { saveButtons, tableBelow } from "./picture-tools.ts";
import { keyList, readingChoice } from "./reading-choice.ts";
import type { Actions, View } from "./view.ts";

export interface Framed {
  readonly element: HTMLElement;
  /** Draws now, whether in sight or not. */
  draw(): void;
  end(): void;
}

/** A picture in its frame; it says and draws something else when another reading is chosen. */
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
      saveButtons(view.id, view.title(index), canvas.whole),
    ),
  );
  return {
    element,
    draw: canvas.draw,
    end() {
      unwatch();
      canvas.end();
    },
  };
}
