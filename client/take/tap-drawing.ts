/** The panel in which the beat is tapped, as it is seen. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { Analysis } from "../../src/account.ts";
import type { TapStep } from "../../src/align/taps.ts";
import { count } from "../../src/words/index.ts";
import { type Change, fieldText } from "../shell/drawn-from.ts";
import {
  isToDecide,
  playAt,
  readTaps,
  SPEEDS,
  STEPS,
  type TapState,
  takeBackTap,
  tapEvery,
  tapFrom,
  tapWords,
  throwAway,
} from "./tap-model.ts";

export interface TapWays {
  readonly change: Change<TapState>;
  /** Plays the take, or stops it. */
  readonly toggle: () => void;
  readonly tap: (event: Event) => void;
  readonly place: () => void;
  readonly removePins: () => void;
}

const PLAY: Readonly<Record<TapState["playing"], string>> = {
  silent: "Play and tap",
  loading: "Loading …",
  sounding: "Stop",
};

/** Choruses beyond those that were found: the first one may have been missed. */
const MORE_CHORUSES = 20;

export function tapDrawing(state: TapState, analysis: Analysis, ways: TapWays): TemplateResult {
  const { alignment, chart } = analysis;
  const most = { chorus: Math.max(1, alignment.choruses) + MORE_CHORUSES, bar: chart.bars.length };
  return html`<summary>Tap the beat</summary>
    <div class="tap-body">
      <p class="hint">
        The take plays and you tap along, with the key T or the button. A missed or uneven tap does no harm.
      </p>
      <fieldset class="tap-first">
        <legend>My first tap is on</legend>
        <div class="tap-fields">
          <label>Chorus ${place(state, "chorus", most.chorus, ways.change)}</label>
          <label>Bar ${place(state, "bar", most.bar, ways.change)}</label>
          <label>Beat ${place(state, "beat", chart.meter.beats, ways.change)}</label>
        </div>
      </fieldset>
      ${how(state, ways.change)}
      <div class="tap-row">
        <button type="button" class="main" @click=${ways.toggle}>${PLAY[state.playing]}</button>
        ${pad(state, ways.tap)}
      </div>
      <p class="tap-told" role="status">${tapWords(state, chart)}</p>
      ${isToDecide(state) ? decision(state, chart, ways) : nothing}
      ${alignment.anchors.length > 0 ? pins(alignment.anchors.length, ways.removePins) : nothing}
    </div>`;
}

const place = (
  { first }: TapState,
  name: "chorus" | "bar" | "beat",
  most: number,
  change: Change<TapState>,
): TemplateResult =>
  html`<input type="number" name="tap-${name}" min="1" max=${most} step="1" .value=${String(first[name])}
    @change=${(event: Event) => change((now) => tapFrom(now, { [name]: Number(fieldText(event)) }))}>`;

const how = (state: TapState, change: Change<TapState>): TemplateResult => html`<div class="tap-how">
  <label>I tap
    <select name="tap-step" @change=${(event: Event) =>
      change((now) => tapEvery(now, fieldText(event) as TapStep))}>
      ${STEPS.map(([step, words]) => html`<option value=${step} .selected=${step === state.step}>${words}</option>`)}
    </select></label>
  <label>Speed
    <select name="tap-speed" @change=${(event: Event) =>
      change((now) => playAt(now, Number(fieldText(event))))}>
      ${SPEEDS.map(
        (speed) =>
          html`<option value=${speed} .selected=${speed === state.speed}>${Math.round(speed * 100)} %</option>`,
      )}
    </select></label>
</div>`;

function pad({ playing }: TapState, tap: (event: Event) => void): TemplateResult {
  const press = (event: Event) => {
    event.preventDefault();
    tap(event);
  };
  const key = (event: KeyboardEvent) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    if (!event.repeat) tap(event);
  };
  return html`<button type="button" class="tap-pad" aria-keyshortcuts="t" ?disabled=${playing !== "sounding"}
    @pointerdown=${press} @keydown=${key}><span>Tap</span><kbd>T</kbd></button>`;
}

const decision = (
  state: TapState,
  chart: Analysis["chart"],
  { change, place: keep }: TapWays,
): TemplateResult => html`<div class="tap-after">
  <button type="button" class="main" ?disabled=${typeof readTaps(state, chart) === "string"} @click=${keep}>
    Place the chart by these taps
  </button>
  <button type="button" @click=${() => change(takeBackTap)}>Take back the last tap</button>
  <button type="button" @click=${() => change(throwAway)}>Throw them away</button>
</div>`;

const pins = (pinned: number, remove: () => void): TemplateResult => html`<p class="tap-pins">
  ${count(pinned, "moment is", "moments are")} pinned.
  <button type="button" class="link" @click=${remove}>Remove every pin</button>
</p>`;
