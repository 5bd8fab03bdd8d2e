/** What the signs mean. */
import { ROLE_MARKS, roleClass, signPath } from "../draw/role-marks.ts";
import { h, s } from "../shell/dom.ts";

export function roleLegend(): HTMLElement {
  return h(
    "section",
    { class: "legend-box", "aria-label": "Signs" },
    h("h2", { class: "small-head" }, "Signs"),
    h(
      "ul",
      { class: "legend" },
      ...ROLE_MARKS.map((mark) =>
        h(
          "li",
          {},
          s(
            "svg",
            { viewBox: "-9 -9 18 18", width: 18, height: 18, "aria-hidden": "true" },
            s("path", { class: roleClass(mark.role), d: signPath(mark, 5.2) }),
          ),
          ` ${mark.word}`,
        ),
      ),
    ),
    h("p", { class: "hint" }, "A hatched bar: its place in the recording is uncertain."),
  );
}
