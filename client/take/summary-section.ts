/** Words below the picture, folded: what the account tells, row by row, each with places to look at and to hear. */
import { h } from "../shell/dom.ts";
import type { Selection, SelectionStore } from "../shell/selection.ts";

export interface ToldRow {
  readonly name: string;
  readonly words: string | Node;
  /** Places that belong to it. */
  readonly places?: readonly Place[];
}

export interface Place {
  readonly words: string;
  readonly select: Selection;
}

/** Places shown before the rest is folded away. */
const SHOWN = 8;

export function toldSection(
  id: string,
  title: string,
  lead: string,
  rows: readonly ToldRow[],
  store: SelectionStore,
  more: readonly Node[] = [],
): HTMLElement {
  return h(
    "details",
    { class: `told view-${id}`, id },
    h("summary", {}, title),
    h("p", { class: "units" }, lead),
    h(
      "dl",
      { class: "told-rows" },
      ...rows.map(({ name, words, places = [] }) =>
        h(
          "div",
          { "data-told": name },
          h("dt", {}, name),
          h("dd", {}, typeof words === "string" ? h("p", {}, words) : words, placeList(places, store)),
        ),
      ),
    ),
    ...more,
  );
}

function placeList(places: readonly Place[], store: SelectionStore): HTMLElement | null {
  if (places.length === 0) return null;
  const button = ({ words, select }: Place) =>
    h("li", {}, h("button", { type: "button", class: "link", onClick: () => store.select(select) }, words));
  const list = h("ul", { class: "told-places" }, ...places.slice(0, SHOWN).map(button));
  const rest = places.slice(SHOWN);
  if (rest.length > 0) {
    const all = h(
      "button",
      {
        type: "button",
        class: "quiet",
        onClick: () => {
          all.parentElement?.remove();
          list.append(...rest.map(button));
        },
      },
      `and ${rest.length} more`,
    );
    list.append(h("li", {}, all));
  }
  return list;
}
