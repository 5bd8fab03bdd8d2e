/** A lesson that was handed out to a player: its sheet, in any key. */
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { stopLine } from "../sound/line.ts";
import { handedPath, readLesson } from "./lesson-api.ts";
import { showSheet } from "./lesson-sheet.ts";

export const handedLessonPage: PageMaker = async (parameters, query, shell) => {
  const [player = "", lesson = ""] = parameters;
  const path = handedPath(player, lesson);
  const host = h("div", {});
  const show = async (inKey: string | null) => {
    const wish = new URLSearchParams(inKey === null ? {} : { inKey });
    const sheet = await readLesson(path, wish);
    if (inKey !== null) shell.replaceQuery(wish.toString());
    const record = new URLSearchParams({ chart: sheet.chart.text, player });
    void showSheet(host, sheet, {
      ...{ path, query: wish, inKey: (key: string) => void again(key) },
      tools: [
        h("a", { class: "button", href: `#/players/${encodeURIComponent(player)}` }, "The player's page"),
        h("a", { class: "button", href: `#/record?${record}` }, "Record the answer"),
      ],
    });
    return sheet;
  };
  const again = (key: string) => show(key).catch((error: Error) => shell.notify(error.message));
  const { title } = await show(query.get("inKey"));
  return { title, element: host, end: stopLine };
};
