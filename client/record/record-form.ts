/** What is chosen before playing: chart, hand, tempo, count-in, names, and what to play to. */

import type { FormRow } from "../../server/contract/charts.ts";
import type { Chart } from "../../src/chart/types.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { handSlot } from "../parts/hand-choice.ts";
import { playerField } from "../parts/usual-chart.ts";
import { shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Backing } from "../sound/backing.ts";
import type { RecordingSettings } from "./record-states.ts";
import { chartOf } from "./send-recording.ts";

export interface RecordForm {
  readonly elements: readonly HTMLElement[];
  /** All that counts from the start on; throws in words when the chart cannot be read. */
  read(): Promise<{ chart: Chart; settings: Omit<RecordingSettings, "keepSound"> }>;
  /** May be written while or after playing. */
  names(): { player: string; title: string };
  backing(): Set<Backing>;
  soundsOwn(): boolean;
  /** Whether each key is named as it is pressed; muted for an exam. */
  namesKeys(): boolean;
  /** The question for the placement map, or null when it is not to be shown. */
  placements(): URLSearchParams | null;
}

export function recordForm(
  formRows: readonly FormRow[],
  players: readonly { readonly id: string; readonly name: string }[],
  start: { readonly chart: string; readonly player: string },
): RecordForm {
  const chartChoice = chartFields(formRows, { text: start.chart, fromTake: false, legend: "The chart" });
  const hand = handSlot(shapes.list);
  const tempo = h("input", { type: "number", name: "tempo", min: 40, max: 320, value: 112 });
  const countIn = h("input", { type: "number", name: "count-in", min: 1, max: 4, value: 2 });
  const player = playerField("record-players", players, chartChoice);
  player.value = players.find(({ id }) => id === start.player)?.name ?? "";
  const title = h("input", { name: "title", autocomplete: "off", value: "Recorded here" });
  const withClick = box("click", true);
  const withBass = box("walking bass", true);
  const withShells = box("shells", false);
  const withPlacements = box("show where the hand may stand", true);
  const ownSound = box("let me hear what I play", true);
  const namesKeys = box("name each key as I play", true);
  const names = () => ({ player: player.value.trim(), title: title.value.trim() || "Recorded here" });
  return {
    elements: [
      chartChoice.element,
      hand.element,
      h(
        "fieldset",
        {},
        h("legend", {}, "What you play to"),
        h(
          "div",
          { class: "row" },
          h("label", {}, "Quarter notes a minute", tempo),
          h("label", {}, "Bars of count-in", countIn),
          h("label", {}, "Player", player),
          h("label", {}, "Title", title),
        ),
        h("datalist", { id: "record-players" }, ...players.map(({ name }) => h("option", { value: name }))),
        h(
          "div",
          { class: "choices record-choices" },
          ...[withClick, withBass, withShells, ownSound, withPlacements, namesKeys].map(({ label }) => label),
        ),
      ),
    ],
    async read() {
      const fields = chartChoice.read();
      const chart = await chartOf(fields);
      return {
        chart,
        settings: {
          chart: fields,
          quartersPerMinute: Number(tempo.value) || 112,
          countInBars: Number(countIn.value) || 2,
          meter: { beats: chart.meter.beats, unit: chart.meter.unit },
          hand: hand.read(),
          ...names(),
        },
      };
    },
    names,
    backing() {
      const chosen = new Set<Backing>();
      if (withClick.input.checked) chosen.add("click");
      if (withBass.input.checked) chosen.add("bass");
      if (withShells.input.checked) chosen.add("shells");
      return chosen;
    },
    soundsOwn: () => ownSound.input.checked,
    namesKeys: () => namesKeys.input.checked,
    placements: () => (withPlacements.input.checked ? whereToStand(chartChoice.read(), hand.read()) : null),
  };
}

function box(label: string, checked: boolean) {
  const input = h("input", { type: "checkbox", checked });
  return { input, label: h("label", { class: "choice" }, input, ` ${label}`) };
}

/** The map is of the shapes that were chosen; else of one, for all at once are no help while playing. */
function whereToStand(
  chart: RecordingSettings["chart"],
  { shapes, soloHand }: RecordingSettings["hand"],
): URLSearchParams {
  const question = new URLSearchParams(chart as Record<string, string>);
  for (const name of shapes?.length ? shapes : [BUILT_IN_SHAPES[0]!.name]) question.append("shape", name);
  if (soloHand === "left") question.set("hand", "left");
  return question;
}
