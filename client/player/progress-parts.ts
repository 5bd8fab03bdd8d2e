/** Parts that the progress page and the term report share. */
import type { PlayerProgress } from "../../server/contract/player-page.ts";
import type { Progress } from "../../src/compare/progress-schema.ts";
import { printedText } from "../findings/finding-words.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { day } from "../shell/words.ts";

export const readProgress = (id: string): Promise<PlayerProgress> =>
  fetchJson<PlayerProgress>(`/players/${encodeURIComponent(id)}/progress`);

/** "10 September to 29 October 2026" */
export function period(progress: Progress): string {
  const dates = progress.takes.map((take) => day(take.date));
  const [first, last] = [dates[0] ?? "", dates[dates.length - 1] ?? ""];
  return first === last ? first : `${first} to ${last}`;
}

export function bestMoments(progress: Progress): HTMLElement {
  if (progress.best.length === 0) return h("p", { class: "empty" }, "No finding speaks of one yet.");
  const takes = new Map(progress.takes.map((take) => [take.id, take]));
  return h(
    "ul",
    { class: "words" },
    ...progress.best.map((best) => {
      const take = takes.get(best.take);
      return h(
        "li",
        {},
        `${printedText(best.text)} `,
        h(
          "a",
          { href: `#/takes/${best.take}?finding=${encodeURIComponent(best.finding)}` },
          `${take?.title ?? best.take}, ${day(take?.date ?? null)}`,
        ),
      );
    }),
  );
}

/** Each goal once, with what became of it take by take; null where none was set. */
export function goalTable(progress: Progress): HTMLElement | null {
  if (progress.goals.length === 0) return null;
  const texts = [...new Set(progress.goals.map((goal) => goal.text))];
  const withGoals = progress.takes.filter((take) => progress.goals.some((goal) => goal.take === take.id));
  return h(
    "div",
    { class: "table-scroll", tabindex: 0, role: "group", "aria-label": "Goals, take by take" },
    h(
      "table",
      { class: "goal-table" },
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          h("th", { scope: "col" }, "Goal"),
          ...withGoals.map((take) => h("th", { scope: "col" }, day(take.date))),
        ),
      ),
      h(
        "tbody",
        {},
        ...texts.map((text) =>
          h(
            "tr",
            {},
            h("th", { scope: "row" }, text),
            ...withGoals.map((take) => {
              const goal = progress.goals.find((one) => one.take === take.id && one.text === text);
              return h("td", { "data-state": goal?.state ?? "none" }, goal?.state ?? "–");
            }),
          ),
        ),
      ),
    ),
  );
}
