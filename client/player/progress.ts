/** A player's page: the lens and what is held on them, the few numbers over time, goals, what was said of each take, best moments. */
import type { PlayerProgress } from "../../server/contract/player-page.ts";
import type { Goal } from "../../src/account.ts";
import { capital, count, withAccidentals } from "../../src/words/index.ts";
import { reachPanel } from "../access/reach-panel.ts";
import { printedText } from "../findings/finding-words.ts";
import { goalForm } from "../findings/goal-form.ts";
import { handedLessons } from "../lesson/handed-lessons.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker, Shell } from "../shell/page.ts";
import { studentLinks } from "../take/share.ts";
import { findingHistory } from "../views/finding-history.ts";
import { framePlain } from "../views/plain-frame.ts";
import { progressLines } from "../views/progress-lines.ts";
import { playerDesk } from "./player-desk.ts";
import { bestMoments, goalTable, period, readProgress } from "./progress-parts.ts";

export const progressPage: PageMaker = async (parameters, _query, shell) => {
  const id = parameters[0] ?? "";
  const host = h("div", { class: "stack" });
  const show = async () => {
    const progress = await readProgress(id);
    const [setter, desk, lessons] = await Promise.all([
      goalSetter(progress, shell, show),
      playerDesk(progress, shell, show),
      handedLessons(id),
    ]);
    lessons.append(studentLinks(id, shell), reachPanel(progress.player));
    host.replaceChildren(...parts(progress, id, { setter, desk, lessons }));
    return progress;
  };
  const { player } = await show();
  return { title: player.name, element: host };
};

function parts(
  progress: PlayerProgress,
  id: string,
  { setter, desk, lessons }: { setter: HTMLElement; desk: HTMLElement; lessons: HTMLElement },
): HTMLElement[] {
  const { takes: row } = progress;
  const head = playerHead(progress, id);
  // Pictures and lists of nothing say nothing: they come with the first take.
  if (row.length === 0) return [head, lessons, desk];
  const moved = progress.measures.filter((one) => /^(clearly|perhaps)/.test(one.words));
  return [
    head,
    lessons,
    desk,
    framePlain(progressLines(progress)),
    h(
      "section",
      { class: "sheet" },
      h("h2", {}, "What has moved"),
      moved.length > 0
        ? h("ul", { class: "words" }, ...moved.map((one) => h("li", {}, printedText(one.sentence))))
        : h(
            "p",
            {},
            row.length < 2
              ? "Two takes are the least for a change."
              : "No clear change in any of the numbers; that is usual over a few weeks.",
          ),
    ),
    h(
      "section",
      { class: "sheet" },
      h("h2", {}, "Goals"),
      goalTable(progress) ?? h("p", { class: "empty" }, "No goal has been set for this player's takes."),
      setter,
    ),
    framePlain(findingHistory(progress)),
    h("section", { class: "sheet" }, h("h2", {}, "Best moments"), bestMoments(progress)),
  ];
}

function playerHead(progress: PlayerProgress, id: string): HTMLElement {
  const { takes: row, player } = progress;
  const sides = new URLSearchParams(
    row.length === 2
      ? { a: row[0]!.id, b: row[1]!.id }
      : {
          sides: row
            .map((take) => take.id)
            .slice(-24)
            .join(","),
        },
  );
  return h(
    "header",
    { class: "take-head" },
    h("h1", {}, player.name),
    h(
      "p",
      { class: "take-meta" },
      [capital(count(row.length, "take")), period(progress)].filter(Boolean).join(", "),
    ),
    h(
      "div",
      { class: "take-ways no-print" },
      h("a", { class: "button main", href: `#/record?player=${encodeURIComponent(id)}` }, "Record a take"),
      row.length > 0 ? h("a", { class: "button", href: `#/players/${id}/report` }, "Term report") : null,
      row.length > 1 ? h("a", { class: "button", href: `#/compare?${sides}` }, "Compare the takes") : null,
    ),
  );
}

/** Sets a goal on the newest take, or on all, so that one sees when it was first reached. */
async function goalSetter(
  progress: PlayerProgress,
  shell: Shell,
  show: () => Promise<unknown>,
): Promise<HTMLElement> {
  const newest = progress.takes[progress.takes.length - 1];
  if (newest === undefined) return h("div", {});
  const { chart } = await takes.analysis(newest.id);
  const numerals = [...new Set(chart.bars.flatMap((bar) => bar.chords.map((chord) => chord.numeral)))];
  const where = h(
    "select",
    { name: "goal-takes" },
    h("option", { value: "newest" }, `the newest take, “${withAccidentals(newest.title)}”`),
    h("option", { value: "all" }, "all takes so far"),
  );
  const add = async (goal: Goal) => {
    const chosen = where.value === "all" ? progress.takes : [newest];
    try {
      for (const take of chosen) {
        const { options } = await takes.analysis(take.id);
        if (options.goals.some((known) => known.text === goal.text)) continue;
        await takes.change(take.id, {
          options: { goals: [...options.goals, goal].map((one) => ({ ...one })) },
        });
      }
      await show();
      shell.notify(`The goal “${goal.text}” is set and checked in ${count(chosen.length, "take")}.`);
    } catch (error) {
      shell.notify((error as Error).message);
    }
  };
  return h(
    "details",
    { class: "no-print" },
    h("summary", {}, "Set a goal"),
    h("label", { class: "paper-choice" }, "For ", where),
    goalForm(numerals.filter(Boolean), (goal) => void add(goal)),
    h("p", { class: "hint" }, "A later take takes the goals over on its feedback page."),
  );
}
