/** What to say first: the goals, what works and what to practise, a line each; the rest of the findings folded below. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Finding } from "../../src/account.ts";
import { count } from "../../src/words/index.ts";
import type { FindingDesk } from "../findings/finding-editor.ts";
import { adder, remarkItem } from "../findings/finding-groups.ts";
import { findingItem, findingLine } from "../findings/finding-item.ts";
import { FINDING_KINDS, isGoal } from "../findings/finding-words.ts";
import { isWaiting, type Kind, remarksOf, shownOf } from "../findings/findings-model.ts";
import { goalPanel, stateOf } from "../findings/goal-panel.ts";
import { heldBack } from "../findings/held-back.ts";
import { notMeasured } from "../findings/not-measured.ts";
import { ownView } from "../findings/own-view.ts";
import { underLens } from "../findings/under-lens.ts";

/** The drawing of a desk; made once for it, so that a goal half typed outlives a redrawing. */
export function lessonLines(): (desk: FindingDesk) => TemplateResult {
  let goals: (() => TemplateResult) | null = null;
  return (desk) => {
    goals ??= goalPanel(desk, true);
    const waiting = isWaiting(desk.state());
    return html`${
      waiting
        ? html`<p class="empty">The findings are shown when the player has written.</p>
            ${ownView(desk)}`
        : html`${goalLines(desk)}
            ${underLens(desk, html`<div class="line-groups">${group("works", desk)}${group("practise", desk)}</div>`)}`
    }
    <div class="line-folds no-print">
      ${waiting ? nothing : noticed(desk)}
      ${fold(goalTitle(desk), goals())}
      ${waiting ? nothing : fold("The player's own view", ownView(desk))}
      ${waiting ? nothing : html`${heldBack(desk.analysis.withheld)}`}
    </div>`;
  };
}

function group(kind: Kind, desk: FindingDesk): TemplateResult {
  const { heading, none } = FINDING_KINDS.find((one) => one.kind === kind)!;
  const own = shownOf(desk.analysis, desk.state(), kind);
  const added = remarksOf(desk.state(), kind);
  return html`<section class=${`finding-group line-group kind-${kind}`}>
    <h2>${heading}</h2>
    ${own.length + added.length === 0 ? html`<p class="empty">${none}</p>` : nothing}
    <ol>${own.map((finding) => findingLine(finding, desk))}${added.map((remark) => remarkItem(remark, desk))}</ol>
    <details class="no-print">
      <summary>Add a remark</summary>
      ${adder(kind, desk)}
    </details>
  </section>`;
}

function goalLines(desk: FindingDesk): TemplateResult | typeof nothing {
  const goals = desk.analysis.findings.filter(isGoal);
  if (goals.length === 0) return nothing;
  return html`<section class="finding-group line-group kind-goals">
    <h2>Goals</h2>
    <ol>${goals.map((goal: Finding) => findingLine(goal, desk, { heading: stateOf(goal.kind) }))}</ol>
  </section>`;
}

function noticed(desk: FindingDesk): TemplateResult {
  const found = shownOf(desk.analysis, desk.state(), "notice");
  const added = remarksOf(desk.state(), "notice");
  const n = found.length + added.length;
  return fold(
    n === 0 ? "To notice: nothing more" : `To notice: ${count(n, "thing")}`,
    html`<ol class="noticed">
        ${found.map((finding) => findingItem(finding, desk))}${added.map((remark) => remarkItem(remark, desk))}
      </ol>
      ${adder("notice", desk)}${notMeasured()}`,
  );
}

const goalTitle = ({ analysis }: FindingDesk): string => {
  const n = analysis.options.goals.length;
  return n === 0 ? "Set a goal" : `Change the goals (${n})`;
};

const fold = (title: string, inside: TemplateResult): TemplateResult =>
  html`<details><summary>${title}</summary>${inside}</details>`;
