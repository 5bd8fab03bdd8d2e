/** What somebody sees whose link to a take is not in force any more. */
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";

export const linkEndedPage: PageMaker = () => ({
  title: "This link has ended",
  element: h(
    "div",
    { class: "sheet" },
    h("h1", {}, "This link has ended"),
    h(
      "p",
      {},
      "Whoever sent it has ended it, or its time has run out. Ask for a new link; nothing of the take is lost.",
    ),
  ),
});
