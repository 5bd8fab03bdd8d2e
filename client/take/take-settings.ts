/** How a take is read: its chart, its solo part, how it is placed on the chart. A change analyses it anew. */

import type { FormRow } from "../../server/contract/charts.ts";
import type { ShapeRow } from "../../server/contract/library.ts";
import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import type { AnalyseOptionsInput, Analysis } from "../../src/account.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { handChoice } from "../parts/hand-choice.ts";
import { h } from "../shell/dom.ts";
import { confirming } from "./question-model.ts";

const METHODS: readonly (readonly [string, string])[] = [
  ["auto", "chosen by the program"],
  ["notated", "by its notation"],
  ["click", "one steady tempo, as to a click"],
  ["tracked", "a beat that drifts"],
  ["rubato", "no beat: by harmony alone"],
];

/** The form; `change` is given what to send. */
export function takeSettings(
  analysis: Analysis,
  take: TakeRow,
  forms: readonly FormRow[],
  shapes: readonly ShapeRow[],
  change: (change: TakeChange) => Promise<void>,
): HTMLElement {
  const { options } = analysis;
  const unconfirmed = analysis.chart.source === "proposed";
  const chart = chartFields(forms, {
    text: analysis.chart.text,
    ...(unconfirmed
      ? { legend: "The chart that was proposed: put right what is not so, then confirm it" }
      : {}),
  });
  const select = (name: string, choices: readonly (readonly [string, string])[], now: string) =>
    h(
      "select",
      { name },
      ...choices.map(([value, label]) => h("option", { value, selected: value === now }, label)),
    );
  const title = h("input", { name: "title", value: take.title ?? "" });
  const player = h("input", { name: "player", value: take.player ?? "" });
  const date = h("input", { name: "date", type: "date", value: take.date?.slice(0, 10) ?? "" });
  const part = select(
    "part",
    [
      ["", "chosen by the program"],
      ...analysis.source.parts.map((p) => [p.id, `${p.name || p.id}, ${p.notes} notes`] as const),
    ],
    options.soloPart ?? "",
  );
  const staves = Math.max(1, options.soloStaff ?? 1, ...analysis.source.parts.map((p) => p.staves));
  const staff = select(
    "staff",
    [
      ["", "chosen by the program"],
      ...Array.from({ length: staves }, (_, i) => [String(i + 1), staffName(i + 1, staves)] as const),
    ],
    String(options.soloStaff ?? ""),
  );
  const pattern = h("input", {
    name: "pattern",
    type: "number",
    min: 1,
    step: 1,
    placeholder: "the first with notes",
    value: options.pattern ?? "",
  });
  const hasPatterns =
    options.pattern !== null || analysis.warnings.some(({ code }) => code === "pattern-chosen");
  const hand = handChoice(shapes, options);
  const method = select("method", METHODS, options.method);
  const tempo = h("input", {
    name: "tempo",
    type: "number",
    min: 20,
    max: 400,
    step: "any",
    value: options.tempo ?? "",
  });
  const form = h(
    "form",
    { class: "settings" },
    chart.element,
    h(
      "fieldset",
      {},
      h("legend", {}, "The solo"),
      h(
        "div",
        { class: "row" },
        h("label", {}, "Part", part),
        staves > 1 ? h("label", {}, "Staff", staff) : null,
        hasPatterns ? h("label", {}, "Pattern of the file", pattern) : null,
        h("label", {}, "Placed on the chart", method),
        h("label", {}, "Quarter notes a minute, if known", tempo),
      ),
    ),
    hand.element,
    h(
      "fieldset",
      {},
      h("legend", {}, "The take"),
      h(
        "div",
        { class: "row" },
        h("label", {}, "Title", title),
        h("label", {}, "Player", player),
        h("label", {}, "Date", date),
      ),
    ),
    h(
      "button",
      { class: "main", type: "submit" },
      unconfirmed ? "Confirm the chart and analyse anew" : "Analyse anew",
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const wanted: AnalyseOptionsInput = {
      soloPart: part.value || null,
      soloStaff: staff.value === "" ? null : Number(staff.value),
      pattern: pattern.value === "" ? null : Number(pattern.value),
      ...hand.read(),
      method: method.value as Analysis["options"]["method"],
      tempo: tempo.value === "" ? null : Number(tempo.value),
    };
    void change({
      ...chart.read(),
      options: { ...wanted, ...confirming(analysis, chart.read()) },
      ...(title.value.trim() ? { title: title.value.trim() } : {}),
      ...(player.value.trim() ? { player: player.value.trim() } : {}),
      ...(date.value ? { date: date.value } : {}),
    });
  });
  return h(
    "details",
    { class: "settings-box", open: unconfirmed },
    h("summary", {}, "Chart, hand and settings"),
    form,
  );
}

/** Staves are counted from the top of the page. */
function staffName(staff: number, staves: number): string {
  const place = staff === 1 ? "the upper one" : staff === staves ? "the lower one" : "in the middle";
  return staves === 1 ? "1" : `${staff}, ${place}`;
}
