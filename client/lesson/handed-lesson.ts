/** A lesson that was handed out to a player: its sheet, in any key. */
import { h } from "../shell/dom.ts";
import type { Page, PageMaker, Shell } from "../shell/page.ts";
import { stopLine } from "../sound/line.ts";
import { handedPath, readLesson } from "./lesson-api.ts";
import { sheetTurner, showSheet } from "./lesson-sheet.ts";

/** As the teacher sees it. */
export const handedLessonPage: PageMaker = (parameters, query, shell) =>
  lessonPage(parameters, query, shell, (player, chart) => [
    h("a", { class: "button", href: `#/players/${encodeURIComponent(player)}` }, "The player's page"),
    h(
      "a",
      { class: "button", href: `#/record?${new URLSearchParams({ chart, player })}` },
      "Record the answer",
    ),
  ]);

/** As the player sees it behind a link. */
export const ownLessonPage: PageMaker = (parameters, query, shell) =>
  lessonPage(parameters, query, shell, (player) => [
    h("a", { class: "button", href: `#/students/${encodeURIComponent(player)}` }, "Your page"),
  ]);

async function lessonPage(
  parameters: readonly string[],
  query: URLSearchParams,
  shell: Shell,
  tools: (player: string, chart: string) => HTMLElement[],
): Promise<Page> {
  const [player = "", lesson = ""] = parameters;
  const path = handedPath(player, lesson);
  const host = h("div", {});
  const turner = sheetTurner(host);
  const show = async (inKey: string | null) => {
    const wish = new URLSearchParams(inKey === null ? {} : { inKey });
    const sheet = await readLesson(path, wish);
    if (inKey !== null) shell.replaceQuery(wish.toString());
    void showSheet(host, sheet, {
      ...{ path, query: wish, inKey: (key: string) => void again(key) },
      tools: tools(player, sheet.chart.text),
      turner,
    });
    return sheet;
  };
  const again = (key: string) => show(key).catch((error: Error) => shell.notify(error.message));
  const { title } = await show(query.get("inKey"));
  return {
    title,
    element: host,
    end() {
      stopLine();
      turner.end();
    },
  };
}
