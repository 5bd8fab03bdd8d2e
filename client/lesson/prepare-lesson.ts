/** Prepares a lesson without a take, and hands it out. The address holds the lesson, so that it can be kept as a link. */
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { readLenses } from "../player/player-api.ts";
import { forms, players, shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { keptDraft } from "../shell/kept-draft.ts";
import type { PageMaker } from "../shell/page.ts";
import { localDate } from "../shell/words.ts";
import { stopLine } from "../sound/line.ts";
import { handOutLesson, readLesson } from "./lesson-api.ts";
import { choosing, handing, type LessonWays } from "./lesson-drawing.ts";
import {
  addressOf,
  type HandOutDraft,
  handedOut,
  handingOf,
  handingOut,
  type LessonState,
  opened,
  read,
  reading,
  refused,
  unhanded,
} from "./lesson-model.ts";
import { sheetTurner, showSheet } from "./lesson-sheet.ts";

export const prepareLessonPage: PageMaker = async (_parameters, query, shell) => {
  const [formRows, playerRows, ownLenses, ownShapes] = await Promise.all([
    forms(),
    players(),
    readLenses(),
    shapes.list(),
  ]);
  const chart = chartFields(formRows, {
    text: query.get("chart") ?? "",
    form: query.get("form") ?? "",
    key: query.get("key") ?? "",
    fromTake: false,
    legend: "The chart",
  });
  const today = localDate(new Date());
  const draft = keptDraft<HandOutDraft>("hand-out");
  const start = opened(
    {
      shapeNames: [...BUILT_IN_SHAPES, ...ownShapes.map(({ shape }) => shape)].map(({ name }) => name),
      players: playerRows,
      ownLenses,
      handedOn: today,
    },
    query,
    draft.read(),
  );
  const sheet = h("div", {});
  const turner = sheetTurner(sheet);
  const top = h("div", {});
  const foot = h("div", {});
  const ways = (change: LessonWays["change"]): LessonWays => ({
    ...{ change, chart: chart.element, prepare: () => void prepare(), handOut: () => void hand() },
  });
  const above = drawnFrom<LessonState>(top, start, (state) => choosing(state, ways(turn)));
  const below = drawnFrom<LessonState>(foot, start, (state) => handing(state, ways(turn)));

  /** Both parts are drawn from one state. */
  function turn(next: (state: LessonState) => LessonState): void {
    above.change(next);
    below.change(() => above.state());
    draft.write(unhanded(above.state(), today));
  }

  async function prepare(inKey: string | null = null): Promise<void> {
    const wish = addressOf(above.state(), chart.read());
    if (inKey !== null) wish.set("inKey", inKey);
    shell.replaceQuery(wish.toString());
    turn(reading);
    try {
      const lesson = await readLesson("/lesson", wish);
      turn((state) => read(state, lesson));
      const record = new URLSearchParams({ chart: lesson.chart.text });
      await showSheet(sheet, lesson, {
        ...{ path: "/lesson", query: wish, inKey: (key: string) => void prepare(key) },
        tools: [h("a", { class: "button", href: `#/record?${record}` }, "Record on this chart")],
        turner,
      });
    } catch (error) {
      turn((state) => refused(state, error));
    }
  }

  async function hand(): Promise<void> {
    const lesson = handingOf(above.state());
    if (lesson === null) return;
    turn(handingOut);
    try {
      await handOutLesson(lesson);
      turn(handedOut);
    } catch (error) {
      turn((state) => refused(state, error));
    }
  }

  void prepare(query.get("inKey"));
  return { title: "Lesson", element: h("div", { class: "stack" }, top, sheet, foot), end: stopLine };
};
