/** "Is this where we are?": the chart runs with click and bass under the take, and each way it could be wrong is a click. */

import { html, nothing, render, type TemplateResult } from "lit-html";
import { withAccidentals } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import type { Transport } from "../sound/transport.ts";
import {
  asItIs,
  barAt,
  canBeMoved,
  clickAnswers,
  doubtWords,
  hasNoBeat,
  heardSlips,
  isAsked,
  moves,
  namedReadings,
} from "./glance-model.ts";
import { type Answer, takeQuestion } from "./question-model.ts";

/** Sends an answer; the take then runs again from `hearFrom` (seconds), so that the answer is heard, where it is given. */
type Send = (answer: Answer, hearFrom?: number) => unknown;

export interface Glance {
  readonly element: HTMLElement;
  /** Opens, and plays from this second of the take on. */
  hear(from: number): void;
  end(): void;
}

/** @param tap where the beat is tapped along */
export function glance(
  index: AccountIndex,
  store: SelectionStore,
  listen: Pick<Transport, "run" | "stop" | "running">,
  tap: HTMLElement,
  send: Send,
): Glance {
  const { analysis } = index;
  const asked = isAsked(analysis);
  // One question at a time: on another chart the bars lie elsewhere.
  const chartIsAsked = takeQuestion(analysis)?.doubt != null;
  const body = h("div", { class: "glance-body" });
  const element = h(
    "details",
    { class: asked ? "glance asked no-print" : "glance no-print", open: asked && !chartIsAsked },
    h("summary", {}, asked ? "Is this where we are?" : "Put the bars right"),
    body,
    tap,
  );
  element.hidden = !canBeMoved(analysis) && !hasNoBeat(analysis);
  const place = () => placeOf(index, store);
  const chart = runningChart(index, store, listen, () => draw());
  const draw = () => {
    const now = listen.running();
    const bar = (now === null ? null : barAt(analysis, now)) ?? place();
    const chords = bar === null ? [] : index.chords(bar.bar).map((chord) => withAccidentals(chord.symbol));
    const at = bar ?? { chorus: 1, bar: 1 };
    const hearFrom = now ?? place()?.start ?? 0;
    const answer = (one: Answer) => send(one, hearFrom);
    const doubt = asked ? html`<p class="hint">${doubtWords(analysis)}</p>` : nothing;
    const clicks = asked ? clickAnswers(analysis) : [];
    if (!canBeMoved(analysis)) {
      render(html`${doubt} ${answers("Other readings", clicks, answer)}`, body);
      return;
    }
    const named = asked ? [...clicks, ...namedReadings(analysis)] : [];
    const slips = asked ? heardSlips(analysis) : [];
    const others = moves(analysis, at, named).filter(
      ({ label }) => !slips.some((slip) => slip.label === label),
    );
    const hear =
      now === null
        ? html`<button type="button" class=${slips.length > 0 ? "" : "main"} @click=${() => chart.run(hearFrom)}>
            Hear it with click and bass
          </button>`
        : html`<button type="button" class="main" @click=${chart.halt}>Stop</button>`;
    render(
      html`${doubt}
        <p class="glance-now">
          ${hear}
          <span class="glance-bar"
            >${now === null ? "from" : "now"} chorus ${at.chorus}, bar ${at.bar}:
            <strong>${chords.join(" ")}</strong></span
          >
          ${asked ? html`<button type="button" @click=${() => send(asItIs(analysis))}>Yes, this is where we are</button>` : nothing}
        </p>
        ${answers("Heard here", slips, answer, "main")} ${answers("Other readings", named, answer)}
        ${answers("What is wrong", others, answer)}`,
      body,
    );
  };
  const unwatch = store.watch((change) => {
    if (change === "selection") draw();
  });
  draw();
  return {
    element,
    hear(from) {
      element.open = true;
      chart.run(from);
    },
    end() {
      chart.end();
      unwatch();
    },
  };
}

/** Buttons of answers, named for those who hear them; nothing where there is none. */
const answers = (
  name: string,
  list: readonly Answer[],
  give: (answer: Answer) => unknown,
  look: "main" | "" = "",
): TemplateResult | typeof nothing =>
  list.length === 0
    ? nothing
    : html`<div class="answers" role="group" aria-label=${name}>
        ${list.map((one) => html`<button type="button" class=${look} @click=${() => give(one)}>${one.label}</button>`)}
      </div>`;

/** The bar from which one listens: the selected one, else that in which the take leaves its form, else the first. */
function placeOf(index: AccountIndex, { selection }: SelectionStore) {
  const note = selection.kind === "note" ? index.note.get(selection.note) : undefined;
  const bar = selection.kind === "bar" && selection.chorus !== null ? selection : note;
  const from = bar ?? index.analysis.alignment.irregular?.[0];
  return index.bar(from?.chorus ?? 1, from?.bar ?? 1) ?? index.analysis.alignment.bars[0] ?? null;
}

/** Plays on, and lights in the picture the bar that sounds; `moved` is told each new bar, and the end. */
function runningChart(
  { analysis }: AccountIndex,
  store: SelectionStore,
  listen: Pick<Transport, "run" | "stop" | "running">,
  moved: () => void,
): { run(from: number): void; halt(): void; end(): void } {
  let frame = 0;
  let shown: number | null = null;
  const step = () => {
    const now = listen.running();
    const bar = now === null ? null : barAt(analysis, now);
    if ((bar?.start ?? null) !== shown) {
      shown = bar?.start ?? null;
      store.light(bar === null ? null : { kind: "bar", chorus: bar.chorus, bar: bar.bar });
      moved();
    }
    frame = requestAnimationFrame(step);
  };
  return {
    run(from) {
      listen.run(from);
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(step);
    },
    halt() {
      cancelAnimationFrame(frame);
      listen.stop();
      shown = null;
      store.light(null);
      moved();
    },
    end: () => cancelAnimationFrame(frame),
  };
}
