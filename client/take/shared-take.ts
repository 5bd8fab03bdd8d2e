/** What somebody sees who was given a link: the take's page with nothing to change. */
import type { Feedback, Lesson } from "../../src/findings/lesson.ts";
import type { PracticeSheet } from "../../src/practice/exercise.ts";
import { inReadableLines, PAPER } from "../practice/exercise-block.ts";
import { fetchJson, fetchText, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { followAddress, storeOfAddress } from "../shell/store-of-address.ts";
import { transport } from "../sound/transport.ts";
import { withoutNames } from "../staff/engraved.ts";
import { lessonPage } from "../standalone/lesson-page.ts";

export const readPage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const base = `/takes/${encodeURIComponent(id)}`;
  const [take, analysis, feedback, sheet] = await Promise.all([
    takes.get(id),
    takes.analysis(id),
    fetchJson<Feedback>(`${base}/feedback`),
    fetchJson<PracticeSheet>(`${base}/practice`),
  ]);
  const lesson: Lesson = {
    take: {
      title: take.title ?? "A take",
      player: take.player,
      date: take.date,
      chartName: take.chartName,
      key: take.key,
    },
    analysis,
    feedback,
    sheet,
    staves: {},
  };
  const store = storeOfAddress(query, shell);
  const page = lessonPage(lesson, store, {
    listen: (index) => transport(index, store),
    staff: async (exercise) => {
      const width = Math.min(PAPER, document.documentElement.clientWidth - 40);
      const { engrave } = await import("../staff/engraver.ts");
      const xml = await fetchText(`${base}/practice/${exercise.id}/score.musicxml`);
      const pages = await engrave(inReadableLines(xml, width), { width, scale: 38, ownBreaks: true });
      return h("div", {}, ...pages.map(withoutNames));
    },
    ways: [
      h(
        "div",
        { class: "take-ways no-print" },
        h("a", { class: "button", href: `/api${base}/page.html`, download: true }, "Save as one file"),
        h("button", { type: "button", onClick: () => window.print() }, "Print"),
      ),
    ],
  });
  return {
    title: lesson.take.title,
    element: page.element,
    query: (next) => followAddress(store, next),
    key(event) {
      if (event.key === "Escape") store.select({ kind: "none" });
    },
    end: () => page.end(),
  };
};
