/** Pinning a bar without dragging: type or nudge the second at which the selected bar starts. */
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import type { Actions } from "../views/view.ts";

export function pinBar(
  index: AccountIndex,
  store: SelectionStore,
  actions: Actions,
): { element: HTMLElement; end(): void } {
  const seconds = h("input", { type: "number", step: 0.01, min: 0, name: "bar-start" });
  const name = h("span", {});
  const element = h(
    "form",
    { class: "pin", hidden: true },
    h("label", {}, h("span", {}, name, " starts at (seconds)"), seconds),
    h("button", { type: "submit" }, "Pin this bar line"),
  );
  const place = () => {
    const { selection } = store;
    if (selection.kind === "bar" && selection.chorus !== null)
      return { chorus: selection.chorus, bar: selection.bar };
    return null;
  };
  const show = () => {
    const at = place();
    const time = at ? index.bar(at.chorus, at.bar) : null;
    element.hidden = !time || !actions.pin || index.analysis.alignment.method === "notated";
    if (!time) return;
    name.textContent = `Bar ${time.bar} of chorus ${time.chorus}`;
    seconds.value = time.start.toFixed(2);
  };
  element.addEventListener("submit", (event) => {
    event.preventDefault();
    const at = place();
    if (at) actions.pin?.({ seconds: Number(seconds.value), ...at, beat: 1 });
  });
  const end = store.watch((change) => {
    if (change === "selection") show();
  });
  show();
  return { element, end };
}
