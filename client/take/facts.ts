/** Names and values, one under the other. */
import { h } from "../shell/dom.ts";

export function facts(rows: readonly (readonly [string, Node | string])[]): HTMLElement {
  return h(
    "dl",
    { class: "facts" },
    ...rows.map(([name, value]) => h("div", {}, h("dt", {}, name), h("dd", {}, value))),
  );
}
