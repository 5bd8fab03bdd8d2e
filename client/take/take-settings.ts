/** How a take is read: its chart, its solo part, how it is placed on the chart. A change analyses it anew. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { FormRow } from "../../server/contract/charts.ts";
import type { ShapeRow } from "../../server/contract/library.ts";
import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { type HandOptions, handChoice } from "../parts/hand-choice.ts";
import { readPlayerPage, sendPlayerCall } from "../player/player-api.ts";
import { ApiError } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { type Change, drawnFrom, fieldText } from "../shell/drawn-from.ts";
import {
  type Choices,
  hasPatterns,
  isUnconfirmed,
  METHODS,
  partChoices,
  settingsChange,
  settingsOf,
  staffChoices,
  type TakeSettings,
  usualWithHand,
} from "./settings-model.ts";

const TO_CONFIRM = "The chart that was proposed: put right what is not so, then confirm it";

/** The form; `send` is given what to change. */
export function takeSettings(
  analysis: Analysis,
  take: TakeRow,
  forms: readonly FormRow[],
  shapes: readonly ShapeRow[],
  send: (change: TakeChange) => Promise<void>,
): HTMLElement {
  const unconfirmed = isUnconfirmed(analysis);
  const chart = chartFields(forms, {
    text: analysis.chart.text,
    ...(unconfirmed ? { legend: TO_CONFIRM } : {}),
  });
  const hand = handChoice(shapes, analysis.options);
  const said = h("p", { class: "hint", role: "status" });
  const form = h("form", { class: "settings" });
  const { state } = drawnFrom(
    form,
    settingsOf(analysis, take),
    (now, change) => html`
    ${chart.element}
    ${soloFields(now, analysis, change)}
    ${hand.element}
    ${nameFields(now, take, change)}
    <button class="main" type="submit">
      ${unconfirmed ? "Confirm the chart and analyse anew" : "Analyse anew"}
    </button>`,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const chosen = hand.read();
    const wanted = settingsChange(state(), analysis, chart.read(), chosen);
    const keeping = state().usualHand ? keepHand(take, chosen) : Promise.resolve("");
    void keeping.then((trouble) => {
      said.textContent = trouble;
      return trouble === "" ? send(wanted) : undefined;
    });
  });
  return h(
    "details",
    { class: "settings-box", open: unconfirmed },
    h("summary", {}, "Chart, hand and settings"),
    form,
    said,
  );
}

function soloFields(now: TakeSettings, analysis: Analysis, change: Change<TakeSettings>): TemplateResult {
  const staves = staffChoices(analysis);
  return html`<fieldset>
    <legend>The solo</legend>
    <div class="row">
      ${choice("Part", "part", partChoices(analysis), now, change)}
      ${staves === null ? nothing : choice("Staff", "staff", staves, now, change)}
      ${hasPatterns(analysis) ? patternField(now, change) : nothing}
      ${choice("Placed on the chart", "method", METHODS, now, change)}
      <label>Tempo (♩ =), if known
        <input name="tempo" type="number" min="20" max="400" step="any" .value=${now.tempo}
          @change=${writes("tempo", change)}></label>
    </div>
  </fieldset>`;
}

const patternField = (now: TakeSettings, change: Change<TakeSettings>): TemplateResult => html`<label
  >Pattern of the file
  <input name="pattern" type="number" min="1" step="1" placeholder="the first with notes" .value=${now.pattern}
    @change=${writes("pattern", change)}></label>`;

/** Keeps the hand as the player's usual one. @returns why it could not be kept, "" when it was */
async function keepHand({ playerId, player }: TakeRow, hand: HandOptions): Promise<string> {
  if (playerId === null) return "";
  try {
    const { usual } = await readPlayerPage(playerId);
    await sendPlayerCall(playerId, {
      method: "PATCH",
      path: "/page",
      body: { usual: usualWithHand(usual, hand) },
    });
    return "";
  } catch (error) {
    if (!(error instanceof ApiError)) throw error;
    return `The hand was not kept for ${player}: ${error.message} ${error.todo}`;
  }
}

const nameFields = (
  now: TakeSettings,
  take: TakeRow,
  change: Change<TakeSettings>,
): TemplateResult => html`<fieldset>
  <legend>The take</legend>
  <div class="row">
    <label>Title<input name="title" .value=${now.title} @change=${writes("title", change)}></label>
    <label>Player<input name="player" .value=${now.player} @change=${writes("player", change)}></label>
    <label>Date<input name="date" type="date" .value=${now.date} @change=${writes("date", change)}></label>
  </div>
  ${take.playerId === null ? nothing : usualHandField(now, take, change)}
</fieldset>`;

const usualHandField = (
  now: TakeSettings,
  { player }: TakeRow,
  change: Change<TakeSettings>,
): TemplateResult => html`<label class="choice">
  <input name="usual-hand" type="checkbox" .checked=${now.usualHand}
    @change=${({ target }: Event) => change((state) => ({ ...state, usualHand: (target as HTMLInputElement).checked }))}>
  Hand size and shapes as above for ${player}’s next takes too</label>`;

const choice = (
  label: string,
  name: Written,
  choices: Choices,
  now: TakeSettings,
  change: Change<TakeSettings>,
): TemplateResult => html`<label>${label}
  <select name=${name} @change=${writes(name, change)}>
    ${choices.map(([value, words]) => html`<option value=${value} .selected=${value === now[name]}>${words}</option>`)}
  </select></label>`;

/** Fields that hold what was typed or chosen. */
type Written = Exclude<keyof TakeSettings, "usualHand">;

function writes(name: Written, change: Change<TakeSettings>): (event: Event) => void {
  return (event) => change((now) => ({ ...now, [name]: fieldText(event) }));
}
