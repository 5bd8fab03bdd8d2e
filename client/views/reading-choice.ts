/** The buttons above the chorus page that choose what its bars show, and the key to the signs of a picture. */
import { h, s } from "../shell/dom.ts";
import { READINGS, type SelectionStore } from "../shell/selection.ts";
import { READINGS_SHOWN } from "./readings/index.ts";
import type { KeyEntry } from "./view.ts";

/** `id` tells the choices of several pictures on one page apart. */
export function readingChoice(id: string, store: SelectionStore): HTMLElement {
  return h(
    "fieldset",
    { class: "reading-choice no-print" },
    h("legend", {}, "Read by"),
    ...READINGS.map((name) =>
      h(
        "label",
        {},
        h("input", {
          type: "radio",
          name: `${id}-reading`,
          value: name,
          checked: store.reading === name,
          onChange: () => store.read(name),
        }),
        h("span", {}, READINGS_SHOWN[name].word),
      ),
    ),
  );
}

export function keyList(entries: readonly KeyEntry[]): HTMLElement {
  return h(
    "ul",
    { class: "legend inline", "aria-label": "Signs" },
    ...entries.map(({ sign, words }) =>
      h(
        "li",
        {},
        sign === null
          ? null
          : s("svg", { viewBox: "-13 -9 26 18", width: 26, height: 18, "aria-hidden": "true" }, sign),
        ` ${words}`,
      ),
    ),
  );
}
