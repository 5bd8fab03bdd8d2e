/** Starts a page of one take that carries everything in its own file: it opens without a server or a network. */
import "../styles/main.css";
import type { EngravedExercise, Lesson } from "../../src/findings/lesson.ts";
import { h } from "../shell/dom.ts";
import { createSelection } from "../shell/selection.ts";
import { engravedElement, withoutNames } from "../staff/engraved.ts";
import { lessonPage } from "./lesson-page.ts";

/** Narrower than any screen: a file can run before its window has been given its size. */
const NO_WINDOW = 200;

function start(): void {
  if (window.innerWidth < NO_WINDOW) {
    window.addEventListener("resize", start, { once: true });
    return;
  }
  const root = document.querySelector<HTMLElement>("#app")!;
  const lesson = JSON.parse(document.querySelector("#lesson")!.textContent!) as Lesson;
  const store = createSelection();
  const page = lessonPage(lesson, store, {
    staff: (exercise) => {
      const drawn = lesson.staves[exercise.id];
      return drawn === undefined ? null : bothWidths(drawn);
    },
  });
  document.title = `${lesson.take.title} – Ledgerline`;
  root.append(
    h("main", { id: "main" }, page.element),
    h(
      "footer",
      { class: "layout-foot" },
      h(
        "p",
        {},
        "This file holds everything that it shows: the notes of the recording, the player's name, the findings and the exercises. It sends nothing and asks for nothing. Where the player is a minor, pass it on only as your local rules for recordings of minors allow.",
      ),
      h(
        "p",
        {},
        "Fingering is inferred from the notes and never observed. Stop at pain, numbness or tingling, and ask a licensed clinician or an experienced teacher.",
      ),
      h("p", {}, "Made with Ledgerline, free software under AGPL-3.0-or-later."),
    ),
  );
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !event.defaultPrevented) store.select({ kind: "none" });
  });
}

/** For paper and for a phone; the style sheet shows one of them. */
async function bothWidths({ head, wide, narrow }: EngravedExercise): Promise<Node> {
  const [forPaper, forPhone] = (await Promise.all([wide, narrow].map(engravedElement))).map(withoutNames);
  return h(
    "div",
    {},
    head === "" ? null : h("p", { class: "hint" }, head),
    h("div", { class: "for-paper" }, forPaper),
    h("div", { class: "for-phone" }, forPhone),
  );
}

start();
