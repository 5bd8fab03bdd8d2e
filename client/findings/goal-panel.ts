/** The goals of a take, checked before anything else is said of it; set, taken over and taken out here. */
import type { Goal } from "../../src/account.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { FindingDesk } from "./finding-editor.ts";
import { findingItem } from "./finding-item.ts";
import { isGoal } from "./finding-words.ts";
import { goalForm } from "./goal-form.ts";

/** `waiting`: the player has not written yet, so only what was agreed is shown, not how it went. */
export function goalPanel(desk: FindingDesk, waiting: boolean): HTMLElement {
  const { analysis } = desk;
  const { goals } = analysis.options;
  const numerals = [
    ...new Set(analysis.chart.bars.flatMap((bar) => bar.chords.map((chord) => chord.numeral))),
  ];
  const found = analysis.findings.filter(isGoal);
  return h(
    "section",
    { class: `finding-group kind-goals${goals.length === 0 ? " no-print" : ""}` },
    h("h2", {}, "Goals"),
    goals.length === 0
      ? h(
          "p",
          { class: "empty no-print" },
          "No goal is set for this take. A goal is checked before anything else.",
        )
      : waiting
        ? h(
            "ol",
            {},
            ...goals.map((goal) =>
              h("li", { class: "finding" }, h("p", { class: "finding-text" }, goal.text)),
            ),
          )
        : h(
            "ol",
            {},
            ...found.map((finding, i) => {
              const item = findingItem(finding, desk);
              item.querySelector(".finding-tools")?.append(takeOut(desk, goals, i));
              item.querySelector(".finding-heading")?.replaceChildren(stateOf(finding.kind));
              return item;
            }),
          ),
    h(
      "details",
      { class: "no-print" },
      h("summary", {}, "Set a goal"),
      goalForm(numerals.filter(Boolean), (goal) => {
        if (goals.some((known) => known.text === goal.text)) desk.say("This goal is set already.");
        else void desk.setGoals([...goals, goal], `The goal “${goal.text}” is set and checked.`);
      }),
      desk.take.playerId
        ? h(
            "button",
            { type: "button", class: "quiet", onClick: () => void takeOver(desk) },
            "Take over the goals of the take before",
          )
        : null,
    ),
  );
}

function stateOf(kind: "works" | "practise" | "notice"): string {
  return kind === "works"
    ? "Goal, reached"
    : kind === "practise"
      ? "Goal, still open"
      : "Goal, yours to judge";
}

function takeOut(desk: FindingDesk, goals: readonly Goal[], i: number): HTMLElement {
  return h(
    "button",
    {
      type: "button",
      class: "quiet",
      onClick: () =>
        void desk.setGoals(
          goals.filter((_, k) => k !== i),
          "The goal is taken out.",
          goals,
        ),
    },
    "Take out",
  );
}

/** The newest earlier take of the same player that has goals. */
async function takeOver(desk: FindingDesk): Promise<void> {
  const { take, analysis } = desk;
  const earlier = (await takes.list())
    .filter((row) => row.playerId === take.playerId && row.id !== take.id)
    .filter((row) => (row.date ?? "") <= (take.date ?? "9"))
    .sort((a, b) => (b.date ?? "").localeCompare(a.date ?? ""));
  for (const row of earlier) {
    const { goals } = (await takes.analysis(row.id)).options;
    if (goals.length === 0) continue;
    const known = new Set(analysis.options.goals.map((goal) => goal.text));
    const fresh = goals.filter((goal) => !known.has(goal.text));
    await desk.setGoals(
      [...analysis.options.goals, ...fresh],
      `Goals of “${row.title ?? row.id}” are taken over.`,
    );
    return;
  }
  desk.say("No earlier take of this player has a goal.");
}
