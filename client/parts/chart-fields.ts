/** Choosing or typing a chart: a form of the trade in a key, a chart in text, or what is heard of the take itself. */
import { html, type TemplateResult } from "lit-html";
import type { FormRow } from "../../server/contract/charts.ts";
import { h } from "../shell/dom.ts";
import { type Change, drawnFrom, fieldText } from "../shell/drawn-from.ts";
import {
  type ChartChoice,
  type ChartRequest,
  type ChartWay,
  chartRequest,
  chooseForm,
  chooseKey,
  chooseWay,
  firstChoice,
  hearFrom,
  keyOf,
  keysOf,
  keyWords,
  offerText,
  touch,
  typeChart,
} from "./chart-choice.ts";
import { chartPreview } from "./chart-preview.ts";
import { proposalPanel } from "./chart-proposal.ts";

export interface ChartFields {
  readonly element: HTMLElement;
  read(): ChartRequest;
  /** The file whose chart is proposed when it is to be read from the take; null when there is none, or several. */
  hear(file: File | null): void;
  /** Whether a proposed chart is shown, to be confirmed by sending it. */
  toConfirm(): boolean;
  /** Puts this chart text in, unless somebody has chosen or typed here already. */
  offer(text: string): void;
}

const HOW_TO_TYPE =
  "Bars between |, chords of a bar share its beats, % repeats the bar before, N.C. is no chord. Lines such as “key: F”, “meter: 3/4” or “idiom: blues” may stand first, and a line “key: Eb” among the bars changes the key from there on; a scale of your own stands in braces behind its chord: F7{Lydian b7}.";

const EXAMPLE = "key: G\nGm7 C7 | Fmaj7 | Em7b5 A7 | Dm7";

const WAYS: Readonly<Record<ChartWay, string>> = {
  form: "A usual form",
  text: "Type a chart",
  own: "Read it from the take",
};

export function chartFields(
  forms: readonly FormRow[],
  start: {
    readonly text?: string;
    readonly form?: string;
    readonly key?: string;
    readonly legend?: string;
    /** Offer to read the chart from the take. */
    readonly fromTake?: boolean;
    /** Called when a proposed chart comes or goes. */
    readonly changed?: () => void;
  } = {},
): ChartFields {
  const proposal = proposalPanel(() => start.changed?.());
  const preview = chartPreview();
  const ways: readonly ChartWay[] = start.fromTake === false ? ["form", "text"] : ["form", "text", "own"];
  const element = h("fieldset", { class: "chart-fields" });
  const { state, change: draw } = drawnFrom(
    element,
    firstChoice(forms, start),
    (choice) => html`
    <legend>${start.legend ?? "The chart it was played on"}</legend>
    <div class="choices">
      ${ways.map((way) => wayChoice(way, choice, () => chooseAnother(way)))}
    </div>
    ${formFields(choice, forms, change)}
    ${textField(choice, preview.element, change)}
    <div ?hidden=${choice.way !== "own"}>${proposal.element}</div>`,
  );
  element.addEventListener("input", () => draw(touch));
  change((same) => same);

  /** What is read and what is heard follows the choice. */
  function change(next: (choice: ChartChoice) => ChartChoice): void {
    draw(next);
    const { way, file, text } = state();
    if (way === "own") proposal.hear(file);
    if (way === "text") preview.show(text);
  }

  function chooseAnother(way: ChartWay): void {
    change((choice) => chooseWay(choice, way, proposal.read()));
    start.changed?.();
  }

  return {
    element,
    read: () => chartRequest(state(), forms, proposal.read()),
    hear: (file) => change((choice) => hearFrom(choice, file)),
    toConfirm: () => state().way === "own" && proposal.read() !== null,
    offer(text) {
      change((choice) => offerText(choice, text));
      start.changed?.();
    },
  };
}

const wayChoice = (way: ChartWay, choice: ChartChoice, choose: () => void): TemplateResult =>
  html`<label class="choice"
    ><input type="radio" name="chart-way" value=${way} .checked=${choice.way === way} @change=${choose}>
    ${WAYS[way]}</label
  >`;

function formFields(
  choice: ChartChoice,
  forms: readonly FormRow[],
  change: Change<ChartChoice>,
): TemplateResult {
  const key = keyOf(choice, forms);
  return html`<div class="row" ?hidden=${choice.way !== "form"}>
    <label>Form
      <select name="form" @change=${(event: Event) => change((now) => chooseForm(now, fieldText(event)))}>
        ${forms.map(
          ({ id, name, bars }) =>
            html`<option value=${id} .selected=${id === choice.form}>${name}, ${bars} bars</option>`,
        )}
      </select></label>
    <label>Key
      <select name="key" @change=${(event: Event) => change((now) => chooseKey(now, fieldText(event)))}>
        ${keysOf(choice, forms).map(
          (one) => html`<option value=${one} .selected=${one === key}>${keyWords(one)}</option>`,
        )}
      </select></label>
  </div>`;
}

const textField = (
  choice: ChartChoice,
  preview: HTMLElement,
  change: Change<ChartChoice>,
): TemplateResult => html`<div ?hidden=${choice.way !== "text"}>
  <label>Chart
    <textarea name="chart-text" rows="6" spellcheck="false" autocapitalize="off" aria-describedby="chart-hint"
      placeholder=${EXAMPLE} .value=${choice.text}
      @input=${(event: Event) => change((now) => typeChart(now, fieldText(event)))}></textarea></label>
  <p class="hint" id="chart-hint">${HOW_TO_TYPE}</p>
  ${preview}
</div>`;
