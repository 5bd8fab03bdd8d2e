/** The goals of a take, checked before anything else is said of it; set, taken over and taken out here. */
import { html, nothing, type TemplateResult } from "lit-html";
import { takes } from "../shell/api.ts";
import { keepFields } from "../shell/kept-fields.ts";
import type { FindingDesk } from "./finding-editor.ts";
import { findingItem, tool } from "./finding-item.ts";
import { isGoal } from "./finding-words.ts";
import { isWaiting } from "./findings-model.ts";
import { goalForm } from "./goal-form.ts";

/**
 * The panel, made once for a desk: its form stays as it is while the rest is drawn anew.
 *
 * @param inFold whether the panel is folded away itself, so that its form need not be
 */
export function goalPanel(desk: FindingDesk, inFold = false): () => TemplateResult {
  const { analysis } = desk;
  const { goals } = analysis.options;
  const numerals = [
    ...new Set(analysis.chart.bars.flatMap((bar) => bar.chords.map((chord) => chord.numeral))),
  ];
  const form = goalForm(numerals.filter(Boolean), (goal) => {
    fields.clear();
    if (goals.some((known) => known.text === goal.text)) desk.say("This goal is set already.");
    else void desk.setGoals([...goals, goal], `The goal “${goal.text}” is set and checked.`);
  });
  const fields = keepFields(form, `goal ${desk.take.id}`);
  const setting = () =>
    html`${
      goals.length === 0
        ? html`<p class="empty">No goal is set for this take. A goal is checked before anything else.</p>`
        : nothing
    }${form}${desk.take.playerId ? tool("Take over the goals of the take before", () => void takeOver(desk)) : nothing}`;
  return () => html`<section class=${`finding-group kind-goals${goals.length === 0 ? " no-print" : ""}`}>
    ${goals.length === 0 ? nothing : html`<h2>Goals</h2><ol>${goalItems(desk)}</ol>`}
    ${inFold ? setting() : html`<details class="no-print"><summary>Set a goal</summary>${setting()}</details>`}
  </section>`;
}

/** The goals; while the player has not written yet only what was agreed, not how it went. */
function goalItems(desk: FindingDesk): TemplateResult[] {
  const { goals } = desk.analysis.options;
  if (isWaiting(desk.state()))
    return goals.map((goal) => html`<li class="finding"><p class="finding-text">${goal.text}</p></li>`);
  return desk.analysis.findings.filter(isGoal).map((finding, i) =>
    findingItem(finding, desk, {
      heading: stateOf(finding.kind),
      tools: tool("Take out", () => takeOut(desk, i)),
    }),
  );
}

export function stateOf(kind: "works" | "practise" | "notice"): string {
  return kind === "works"
    ? "Goal, reached"
    : kind === "practise"
      ? "Goal, still open"
      : "Goal, yours to judge";
}

function takeOut(desk: FindingDesk, at: number): void {
  const { goals } = desk.analysis.options;
  void desk.setGoals(
    goals.filter((_, i) => i !== at),
    "The goal is taken out.",
    goals,
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
