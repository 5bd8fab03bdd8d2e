/** Choosing or typing a chart: a form of the trade in a key, a chart in text, or what is heard of the take itself. */

import type { FormRow } from "../../server/contract/charts.ts";
import { usualTonics } from "../../src/pitch/index.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import { chartPreview } from "./chart-preview.ts";
import { proposalPanel } from "./chart-proposal.ts";

export interface ChartFields {
  readonly element: HTMLElement;
  /** Fields of the request: `form` and `key`, or `chart`, or none. */
  read(): { form?: string; key?: string; chart?: string };
  /** The file whose chart is proposed when it is to be read from the take; null when there is none, or several. */
  hear(file: File | null): void;
  /** Whether a proposed chart is shown, to be confirmed by sending it. */
  toConfirm(): boolean;
  /** Puts this chart text in, unless somebody has chosen or typed here already. */
  offer(text: string): void;
}

const HOW_TO_TYPE =
  "Bars between |, chords of a bar share its beats, % repeats the bar before, N.C. is no chord. Lines such as “key: F”, “meter: 3/4” or “idiom: blues” may stand first; a scale of your own stands in braces behind its chord: F7{Lydian b7}.";

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
  const state: { way: string; file: File | null } = { way: start.text ? "text" : "form", file: null };
  const proposal = proposalPanel(() => start.changed?.());
  const form = h(
    "select",
    { name: "form" },
    ...forms.map((row) =>
      h("option", { value: row.id, selected: row.id === start.form }, `${row.name}, ${row.bars} bars`),
    ),
  );
  const key = keyField(forms, form, start.key);
  const text = h(
    "textarea",
    {
      name: "chart-text",
      rows: 6,
      spellcheck: "false",
      autocapitalize: "off",
      "aria-describedby": "chart-hint",
      placeholder: "key: G\nGm7 C7 | Fmaj7 | Em7b5 A7 | Dm7",
    },
    start.text ?? "",
  );
  const preview = chartPreview();
  text.addEventListener("input", () => preview.show(text.value));
  const panels: Record<string, HTMLElement> = {
    form: h("div", { class: "row" }, h("label", {}, "Form", form), h("label", {}, "Key", key)),
    text: h(
      "div",
      {},
      h("label", {}, "Chart", text),
      h("p", { class: "hint", id: "chart-hint" }, HOW_TO_TYPE),
      preview.element,
    ),
    own: proposal.element,
  };
  const way = (value: string, label: string) => {
    const input = h("input", { type: "radio", name: "chart-way", value, checked: state.way === value });
    input.addEventListener("change", () => {
      state.way = value;
      // What was heard can be gone on with as text.
      if (value === "text" && text.value.trim() === "") text.value = proposal.read() ?? "";
      show();
      start.changed?.();
    });
    return h("label", { class: "choice" }, input, ` ${label}`);
  };
  const show = () => {
    for (const [name, panel] of Object.entries(panels)) panel.hidden = name !== state.way;
    if (state.way === "own") proposal.hear(state.file);
    if (state.way === "text") preview.show(text.value);
  };
  const element = h(
    "fieldset",
    { class: "chart-fields" },
    h("legend", {}, start.legend ?? "The chart it was played on"),
    h(
      "div",
      { class: "choices" },
      way("form", "A usual form"),
      way("text", "Type a chart"),
      start.fromTake === false ? null : way("own", "Read it from the take"),
    ),
    ...Object.values(panels),
  );
  let touched = false;
  element.addEventListener("input", () => {
    touched = true;
  });
  show();
  return {
    element,
    read() {
      if (state.way === "form") return { form: form.value, key: key.value };
      if (state.way === "text") return { chart: text.value };
      const heard = proposal.read();
      return heard === null ? {} : { chart: heard };
    },
    hear(file) {
      state.file = file;
      if (state.way === "own") proposal.hear(file);
    },
    toConfirm: () => state.way === "own" && proposal.read() !== null,
    offer(chart) {
      if (touched) return;
      state.way = "text";
      text.value = chart;
      const chosen = element.querySelector<HTMLInputElement>('[name="chart-way"][value="text"]');
      if (chosen !== null) chosen.checked = true;
      show();
      start.changed?.();
    },
  };
}

/** The keys of a form, filled anew when it changes; the tonic that was chosen stays. */
function keyField(
  forms: readonly FormRow[],
  form: HTMLSelectElement,
  startKey: string | undefined,
): HTMLSelectElement {
  const key = h("select", { name: "key" });
  const fillKeys = () => {
    const minor = forms.find((row) => row.id === form.value)?.mode === "minor";
    const held = key.value.replace(/m$/, "");
    key.replaceChildren(
      ...usualTonics(minor ? "minor" : "major").map((name) =>
        h(
          "option",
          {
            value: minor ? `${name}m` : name,
            selected: name === (held || startKey?.replace(/m$/, "") || "F"),
          },
          `${withAccidentals(name)} ${minor ? "minor" : "major"}`,
        ),
      ),
    );
  };
  form.addEventListener("change", fillKeys);
  fillKeys();
  return key;
}
