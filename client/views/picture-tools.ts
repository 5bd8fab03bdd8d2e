/** What every picture carries along: the buttons that save it, and its numbers as a table. */
import { download, pngBlob, svgText } from "../draw/picture.ts";
import { h } from "../shell/dom.ts";
import type { Table } from "./view.ts";

export type SavedKind = "svg" | "png";

/** "Save picture: SVG PNG"; `what` names the thing to those who hear the page. */
export function saveBar(what: string, save: (kind: SavedKind) => void): HTMLElement {
  const button = (kind: SavedKind) =>
    h(
      "button",
      {
        type: "button",
        class: "quiet",
        onClick: () => save(kind),
        "aria-label": `Save ${what} as ${kind.toUpperCase()}`,
      },
      kind.toUpperCase(),
    );
  return h(
    "div",
    { class: "save" },
    h("span", { class: "save-word" }, "Save picture: "),
    button("svg"),
    button("png"),
  );
}

/** `saveBar` for a drawing of our own; `whole` hands it on as it stands now, null where nothing is drawn. */
export function saveButtons(
  id: string,
  title: string,
  whole: <T>(use: (svg: SVGSVGElement) => T) => T | null,
): HTMLElement {
  const save = async (kind: SavedKind) => {
    const blob = await whole((drawing) =>
      kind === "svg" ? new Blob([svgText(drawing, title)], { type: "image/svg+xml" }) : pngBlob(drawing),
    );
    if (blob) download(`${id}.${kind}`, blob);
  };
  return saveBar("picture", (kind) => void save(kind));
}

/** The same numbers as a table, made when it is opened. */
export function tableBelow(title: string, make: () => Table): HTMLDetailsElement {
  const details = h("details", { class: "as-table" }, h("summary", {}, "The same as a table"));
  details.addEventListener("toggle", () => {
    if (details.querySelector("table")) return;
    details.append(
      h(
        "div",
        { class: "table-scroll", tabindex: 0, role: "group", "aria-label": `${title}: table` },
        tableOf(title, make()),
      ),
    );
  });
  return details;
}

function tableOf(title: string, table: Table): HTMLTableElement {
  return h(
    "table",
    {},
    h("caption", {}, title),
    h("thead", {}, h("tr", {}, ...table.columns.map((name) => h("th", { scope: "col" }, name)))),
    h(
      "tbody",
      {},
      ...table.rows.map((row) =>
        h("tr", {}, ...row.map((cell, i) => (i === 0 ? h("th", { scope: "row" }, cell) : h("td", {}, cell)))),
      ),
    ),
  );
}
