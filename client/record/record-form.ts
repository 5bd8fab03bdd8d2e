/** What is chosen before playing: chart, hand, tempo, count-in, names, and what to play to. */

import type { FormRow } from "../../server/contract/charts.ts";
import type { Chart } from "../../src/chart/types.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import { tempoMark } from "../../src/words/index.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { handSlot } from "../parts/hand-choice.ts";
import { playerField } from "../parts/usual-chart.ts";
import { shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Backing, ClickOn } from "../sound/backing.ts";
import { CHANGERS, type Changer } from "./free-time.ts";
import type { RecordingSettings } from "./record-states.ts";
import { chartOf } from "./send-recording.ts";

export interface RecordForm {
  readonly elements: readonly HTMLElement[];
  /** All that counts from the start on; throws in words when the chart cannot be read. */
  read(): Promise<{ chart: Chart; settings: Omit<RecordingSettings, "keepSound"> }>;
  /** May be written while or after playing. */
  names(): { player: string; title: string };
  backing(): { readonly sounds: Set<Backing>; readonly clickOn: ClickOn };
  /** What changes the chord in free time. */
  changer(): Changer;
  soundsOwn(): boolean;
  /** Whether each key is named as it is pressed; muted for an exam. */
  namesKeys(): boolean;
  /** The question for the placement map of a chart, or null when it is not to be shown. */
  placements(chart: RecordingSettings["chart"]): URLSearchParams | null;
}

const CLICKS = ["every beat", "two and four", "none"] as const;

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
  const time = timeChoice();
  const click = select("click", CLICKS);
  const withBass = box("walking bass", true);
  const withShells = box("shells", false);
  const withPlacements = box("show where the hand may stand", true);
  const ownSound = box("let me hear what I play", true);
  const namesKeys = box("name each key as I play", true);
  const names = () => ({ player: player.value.trim(), title: title.value.trim() || "Recorded here" });
  const toClick = h(
    "div",
    { class: "row" },
    h("label", {}, "Tempo, ♩ =", tempo),
    h("label", {}, "Bars of count-in", countIn),
    h("label", {}, "Click on", click),
  );
  time.watch((free) => {
    toClick.hidden = free;
  });
  return {
    elements: [
      chartChoice.element,
      h(
        "fieldset",
        {},
        h("legend", {}, "What you play to"),
        time.element,
        toClick,
        h(
          "div",
          { class: "row" },
          h("label", {}, "Player", player),
          h("label", {}, "Title", title),
          h("datalist", { id: "record-players" }, ...players.map(({ name }) => h("option", { value: name }))),
        ),
        h(
          "div",
          { class: "choices record-choices" },
          ...[withBass, withShells, ownSound, withPlacements, namesKeys].map(({ label }) => label),
        ),
      ),
      hand.element,
    ],
    async read() {
      const fields = chartChoice.read();
      const chart = await chartOf(fields);
      const free = time.free();
      return {
        chart,
        settings: {
          chart: fields,
          quartersPerMinute: Number(tempo.value) || 112,
          countInBars: free ? 0 : Number(countIn.value) || 2,
          meter: { beats: chart.meter.beats, unit: chart.meter.unit },
          time: free ? "free" : "click",
          hand: hand.read(),
          ...names(),
        },
      };
    },
    names,
    backing: () =>
      backingOf(time.free() ? "none" : click.value, withBass.input.checked, withShells.input.checked),
    changer: time.changer,
    soundsOwn: () => ownSound.input.checked,
    namesKeys: () => namesKeys.input.checked,
    placements: (chart) => (withPlacements.input.checked ? whereToStand(chart, hand.read()) : null),
  };
}

function backingOf(click: string, bass: boolean, shells: boolean): ReturnType<RecordForm["backing"]> {
  const sounds = new Set<Backing>();
  if (click !== "none") sounds.add("click");
  if (bass) sounds.add("bass");
  if (shells) sounds.add("shells");
  return { sounds, clickOn: click === "two and four" ? "two and four" : "every beat" };
}

/** "Blues, ♩ = 112, two bars of count-in", for the line above the keys. */
export function setWords(chart: Chart, settings: Omit<RecordingSettings, "keepSound">): string {
  const name = chart.name ?? "Your chart";
  if (settings.time === "free") return `${name}, in free time`;
  const { countInBars: bars, quartersPerMinute } = settings;
  return `${name}, ${tempoMark(quartersPerMinute)}, ${bars} ${bars === 1 ? "bar" : "bars"} of count-in`;
}

/** To a click, or in free time with chords that are changed by foot or key. */
function timeChoice() {
  const radio = (value: string, checked: boolean) =>
    h("input", { type: "radio", name: "time", value, checked });
  const [click, free] = [radio("click", true), radio("free", false)];
  const changer = select("changer", CHANGERS);
  const more = h(
    "p",
    { class: "row", hidden: true },
    h("label", {}, "On a MIDI keyboard the next chord comes with the", changer),
    h("span", { class: "hint" }, "On the computer: arrow right; arrow left takes it back."),
  );
  return {
    element: h(
      "div",
      {},
      h(
        "div",
        { class: "choices" },
        h("label", { class: "choice" }, click, " to a click"),
        h("label", { class: "choice" }, free, " in free time: I change the chords"),
      ),
      more,
    ),
    free: () => free.checked,
    changer: () => changer.value as Changer,
    watch(changed: (free: boolean) => void) {
      for (const one of [click, free]) {
        one.addEventListener("change", () => {
          more.hidden = !free.checked;
          changed(free.checked);
        });
      }
    },
  };
}

const select = (name: string, values: readonly string[]): HTMLSelectElement =>
  h("select", { name }, ...values.map((value) => h("option", { value }, value)));

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
