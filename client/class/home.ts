/** The first page: the class, the newest takes, and where a solo is dropped. */
import { thisBrowser } from "../offline/this-browser.ts";
import { unsentNotice } from "../record/unsent-notice.ts";
import { forms } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { addTakes } from "./add-takes.ts";
import { readTakes } from "./class-api.ts";
import { classDesk } from "./class-desk.ts";
import { openSolo } from "./open-solo.ts";

export const home: PageMaker = async (_parameters, _query, shell) => {
  const [formRows, own, desk] = await Promise.all([
    forms(),
    readTakes("demo=false&limit=1"),
    classDesk(shell),
  ]);
  const add = addTakes(formRows, desk.players, shell, () => desk.refresh());
  const open = own.total > 0 ? null : await openSolo(shell);
  const dropped = shell.takeDropped();
  if (dropped.length > 0) add.add(dropped);
  return {
    title: "Takes",
    element: h(
      "div",
      { class: "home" },
      unsentNotice(),
      h("section", { class: "sheet intro" }, own.total > 0 ? classHead() : welcome(), add.element),
      desk.element,
      open?.element ?? null,
      thisBrowser(),
    ),
    end: () => open?.end(),
  };
};

/** What a lesson begins with. */
function classHead(): HTMLElement {
  return h(
    "div",
    {},
    h("h1", {}, "The class"),
    h(
      "p",
      { class: "take-ways" },
      h("a", { class: "button main", href: "#/record" }, "Record a take"),
      h("a", { class: "button", href: "#/lesson" }, "Prepare a lesson"),
    ),
  );
}

function welcome(): HTMLElement {
  return h(
    "div",
    {},
    h("h1", {}, "Every note of a solo, accounted for"),
    h(
      "p",
      { class: "lead" },
      "Give a piano solo and its chord chart. What comes back says of each note what it is against its chord, what it does in the line, which hand placement and finger played it, and which figure it belongs to.",
    ),
  );
}
