/** What stands on a take's page for one account: made anew for each analysis, around a selection that stays. */

import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import { type DeskStart, type FindingDesk, findingDesk } from "../findings/finding-editor.ts";
import { keptSound } from "../listen/kept-sound.ts";
import { type AccountIndex, indexAccount } from "../shell/account-index.ts";
import { forms, shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Shell } from "../shell/page.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { type Transport, transport } from "../sound/transport.ts";
import { staffSection } from "../staff/staff-section.ts";
import type { Actions } from "../views/view.ts";
import { correctMenu } from "./correct-menu.ts";
import { findAgain } from "./find-again.ts";
import { glance } from "./glance.ts";
import { isAsked } from "./glance-model.ts";
import { handTold } from "./hand-summary.ts";
import { ideasTold } from "./ideas-summary.ts";
import { lessonLines } from "./lesson-lines.ts";
import { lineTold } from "./line-summary.ts";
import { pinBar } from "./pin-bar.ts";
import { askOfTake } from "./question.ts";
import type { Answer } from "./question-model.ts";
import { readingDesk } from "./reading-desk.ts";
import { readingPanel } from "./selection-text.ts";
import { sharePanel } from "./share.ts";
import { openChart, takeHead } from "./take-head.ts";
import { takeSettings } from "./take-settings.ts";
import { tapBeat } from "./tap-beat.ts";

/** Changes the take, says so, and offers the way back where `undo` is one. */
export type Change = (
  wanted: TakeChange,
  words: string,
  undo?: TakeChange,
  /** Second of the take from which the answer is heard. */
  hearFrom?: number,
) => Promise<void>;

export interface Unfolded {
  /** Findings, by id. */
  readonly open: ReadonlySet<string>;
  /** The list of what was put right. */
  readonly listed: boolean;
}

export interface TakeView {
  readonly trouble: HTMLElement;
  /** What is unfolded, for the view that follows this one. */
  unfolded(): Unfolded;
  /** Draws the picture now, in sight or not. */
  draw(): void;
  play(): void;
  /** Lets the chart run under the take from this second on. */
  hear(from: number): void;
  /** Puts the focus on the picture. */
  focus(): void;
  /** Takes a key for a tap of the beat; false when nothing plays for it. */
  tap(event: KeyboardEvent): boolean;
  end(): void;
}

export function takeView(
  host: HTMLElement,
  take: TakeRow,
  analysis: Analysis,
  start: DeskStart & Unfolded,
  store: SelectionStore,
  shell: Shell,
  change: Change,
): TakeView {
  const index = indexAccount(analysis);
  const listen = transport(index, store);
  const anchored = { anchors: analysis.alignment.anchors };
  const actions: Actions = { play: () => listen.toggle(), pin: pinning(analysis, change) };
  const desk = readingDesk(index, store, actions);
  const staff = staffSection(take.id, index, store, actions);
  const reading = readingPanel(index, store);
  const pin = pinBar(index, store, actions);
  const tap = tapBeat(index, store, (anchors, words) => void change({ anchors }, words, anchored));
  const give = (answer: Answer, from?: number) => change(answer.change, answer.said, answer.undo, from);
  const where = glance(index, store, listen, tap.element, give);
  const correct = correctMenu(index, store, start.listed, (answer) => give(answer));
  const again = findAgain(take.id, index, store, shell);
  const trouble = h("div", { class: "trouble" });
  const settings = h("div", { class: "settings-slot" });
  const lines = h("section", { class: "lesson-lines", "aria-label": "Findings" });
  const findings = findingDesk(
    lines,
    start,
    { take, analysis, store, ...waysOf(shell, change, listen) },
    lessonLines(),
  );
  host.replaceChildren(
    takeHead(take, analysis, [
      ...(isAsked(analysis) ? [] : [where.element]),
      sharePanel(take.id, shell),
      settings,
    ]),
    trouble,
    askOfTake(analysis, change, openChart(settings), "chart") ?? "",
    isAsked(analysis) ? where.element : "",
    lines,
    h(
      "div",
      { class: "desk" },
      h("div", { class: "pictures" }, desk.picture.element),
      h(
        "aside",
        { class: "margin", "aria-label": "Words beside the pictures" },
        ...[listen.element, keptSound(take, analysis)],
        ...[reading.element, correct.element, again.element, pin.element, desk.beside],
      ),
      toldFolds(index, store),
    ),
    staff.element,
  );
  void Promise.all([forms(), shapes.list()]).then(([rows, own]) =>
    settings.replaceChildren(
      takeSettings(analysis, take, rows, own, (wanted) =>
        change(wanted, "The take is analysed anew.", before(take, analysis)),
      ),
    ),
  );
  const parts = [findings, desk, reading, correct, pin, tap, where, again, listen, staff];
  return {
    trouble,
    unfolded: () => ({ open: findings.desk.state().open, listed: correct.listed() }),
    draw: () => desk.picture.draw(),
    play: () => listen.toggle(),
    hear: (from) => where.hear(from),
    focus() {
      const plot = desk.picture.element.querySelector<HTMLElement>(".plot");
      plot?.focus();
      plot?.scrollIntoView({ block: "nearest" });
    },
    tap: (event) => tap.tap(event),
    end() {
      for (const part of parts) part.end();
    },
  };
}

/** What is told in words, folded, below the picture that it speaks of. */
function toldFolds(index: AccountIndex, store: SelectionStore): HTMLElement {
  const told = [handTold(index, store), ideasTold(index, store), lineTold(index, store)];
  return h("div", { class: "told-folds" }, ...told);
}

/** Pins a moment; one that was pinned to the same place gives way. */
function pinning(analysis: Analysis, change: Change): NonNullable<Actions["pin"]> {
  const { anchors } = analysis.alignment;
  return (anchor) => {
    const others = anchors.filter(
      (other) => other.chorus !== anchor.chorus || other.bar !== anchor.bar || other.beat !== anchor.beat,
    );
    void change(
      { anchors: [...others, anchor] },
      `Bar ${anchor.bar} of chorus ${anchor.chorus} is pinned at ${anchor.seconds.toFixed(2)} s.`,
      { anchors },
    );
  };
}

/** What the lines of findings can ask for; the picture beside them is in sight already. */
function waysOf(
  shell: Shell,
  change: Change,
  listen: Transport,
): Pick<FindingDesk, "say" | "hear" | "follow" | "setGoals"> {
  const options = (goals: Parameters<FindingDesk["setGoals"]>[0]): TakeChange => ({
    options: { goals: goals.map((goal) => ({ ...goal })) },
  });
  return {
    say: (text, undo) => shell.notify(text, undo),
    hear: (finding) => listen.hear({ kind: "finding", finding }),
    follow() {},
    setGoals: (goals, words, earlier) => change(options(goals), words, earlier && options(earlier)),
  };
}

/** What settings change, as it stands: the way back from them. */
function before(take: TakeRow, { chart, options }: Analysis): TakeChange {
  return {
    chart: chart.text,
    options: {
      soloPart: options.soloPart,
      soloStaff: options.soloStaff,
      pattern: options.pattern,
      shapes: options.shapes === null ? null : [...options.shapes],
      method: options.method,
      tempo: options.tempo,
      chartConfirmed: options.chartConfirmed,
    },
    ...(take.title ? { title: take.title } : {}),
    ...(take.player ? { player: take.player } : {}),
    ...(take.date ? { date: take.date } : {}),
  };
}
