/** What is seen while playing: the chart going by, the keys, and where the hand may stand. */
import { chordSpans } from "../../src/chart/chord-spans.ts";
import type { Chart } from "../../src/chart/types.ts";
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { count } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import type { Band } from "./band.ts";
import type { BarLoop } from "./bar-loop.ts";
import { type ChartRow, chartRow } from "./chart-row.ts";
import { type FormPlace, freeWords, placeInFree } from "./free-time.ts";
import type { Played } from "./key-input.ts";
import { nameKey, nameWords, spanAt } from "./named-key.ts";
import type { RecordingSettings } from "./record-states.ts";
import { type StageKeys, stageKeys } from "./stage-keys.ts";

export interface RecordStage {
  readonly chartBoard: HTMLElement;
  readonly board: HTMLElement;
  /** One line: where in the form, and how many notes. */
  readonly place: HTMLElement;
  /** What the key that was pressed last is to its chord; empty while names are muted. */
  readonly named: HTMLElement;
  /** The bars that go round; null for the whole form. */
  loop(): BarLoop;
  /** Shows the chart that is chosen, while nobody plays. */
  preview(chart: Chart): void;
  /** @param late seconds by which what is played on this comes late */
  press(pitch: number, down: boolean, late: number): void;
  /** Goes along with the band until `rest`. */
  follow(playing: Followed): void;
  rest(): void;
  end(): void;
}

export interface Followed {
  /** The chart that is played: where bars go round, those bars. */
  readonly chart: Chart;
  readonly settings: Pick<RecordingSettings, "quartersPerMinute" | "countInBars" | "time">;
  readonly map: PlacementMap | null;
  readonly band: Band;
  /** Whether each key is named as it is pressed: not in an exam. */
  readonly names: boolean;
  /** Bars of the whole chart before the first that is played, where bars go round; null for the whole form. */
  readonly before: number | null;
  /** In free time, seconds at which chords began so far. */
  changes(): readonly number[];
  /** Notes so far. */
  heard(): number;
  /** Told once, when the count-in is over. */
  barOne(): void;
}

/** @param touched told of keys that are pressed on the drawing itself */
export function recordStage(touched: (event: Played) => void): RecordStage {
  const keys = stageKeys(touched);
  const row = chartRow();
  const named = h("p", { class: "named-key", role: "status", "aria-live": "off" });
  const place = h("p", { class: "now-playing", role: "status" }, "Ready.");
  let name: (pitch: number, late: number) => void = () => {};
  let frame = 0;
  let chosen: Chart | null = null;
  return {
    chartBoard: row.element,
    board: keys.element,
    ...{ place, named },
    loop: row.loop,
    preview(chart) {
      chosen = chart;
      row.lay(chart, false);
    },
    press(pitch, down, late) {
      keys.press(pitch, down);
      if (down) name(pitch, late);
    },
    follow(playing) {
      if (chosen !== null) row.lay(chosen, true);
      named.textContent = "";
      const placeAt = placeReader(playing);
      name = keyNamer(playing, placeAt, row, named);
      const turnBar = barTurner(playing, row, place);
      const turnHand = handTurner(playing, keys);
      const turn = () => {
        const at = placeAt(playing.band.now());
        turnBar(at);
        turnHand(at);
        frame = requestAnimationFrame(turn);
      };
      turn();
    },
    rest() {
      cancelAnimationFrame(frame);
      keys.clear();
      name = () => {};
      row.rest();
    },
    end: keys.end,
  };
}

/** Where in the form a moment is; seconds from the start of the count-in. */
function placeReader({ chart, settings, changes }: Followed): (seconds: number) => FormPlace {
  const spans = chordSpans(chart);
  if (settings.time === "free") return (seconds) => placeInFree(changes(), spans, chart, seconds);
  const barSeconds = ((chart.meter.beats * 4) / chart.meter.unit) * (60 / settings.quartersPerMinute);
  return (seconds) => {
    const bars = seconds / barSeconds - settings.countInBars;
    return { bars, span: bars < 0 ? null : spanAt(spans, chart, bars) };
  };
}

/** Says and marks the bar, when it is another one than before. */
function barTurner(playing: Followed, row: ChartRow, place: HTMLElement): (at: FormPlace) => void {
  const { chart, settings } = playing;
  const before = playing.before ?? 0;
  const { length } = chart.bars;
  const round = playing.before === null ? "Chorus" : "Round";
  let shown = Number.NaN;
  return ({ bars, span }) => {
    const whole = Math.floor(bars);
    if (whole === shown) return;
    if (whole >= 0 && !(shown >= 0)) playing.barOne();
    shown = whole;
    const bar = ((whole % length) + length) % length;
    const notes = count(playing.heard(), "note");
    if (settings.time === "free") place.textContent = freeWords({ bars, span }, chart, notes, before);
    else if (whole < 0) place.textContent = `Count-in: ${count(-whole, "bar")} to go.`;
    else
      place.textContent = `${round} ${Math.floor(whole / length) + 1}, bar ${before + bar + 1}, ${notes} so far.`;
    row.turn(whole >= 0 ? before + bar : null);
  };
}

/** Shows the placement of the chord under way, from a bar before the form. */
function handTurner({ chart, map }: Followed, keys: StageKeys): (at: FormPlace) => void {
  let span = -1;
  return ({ bars }) => {
    if (!map || bars < -1) return;
    const at = Math.max(0, bars % chart.bars.length);
    const beat = (at % 1) * chart.meter.beats + 1;
    const chord = map.chords.findLast(
      (one) => one.bar - 1 < Math.floor(at) || (one.bar - 1 === Math.floor(at) && one.beat <= beat + 0.01),
    );
    if (!chord || chord.span === span) return;
    span = chord.span;
    const next = map.chords[(map.chords.indexOf(chord) + 1) % map.chords.length]!;
    keys.place(onWay(map, chord), onWay(map, next));
  };
}

const onWay = (map: PlacementMap, chord: PlacementMap["chords"][number]) => {
  const way = map.way.steps.find((step) => step.span === chord.span)?.placement;
  return chord.placements.find((one) => one.id === way) ?? chord.placements[0];
};

/** Names a key in the very moment at which it is pressed, and puts its sign into the bar. */
function keyNamer(
  { chart, map, band, names, before }: Followed,
  placeAt: (seconds: number) => FormPlace,
  row: ChartRow,
  named: HTMLElement,
): (pitch: number, late: number) => void {
  return (pitch, late) => {
    const { bars, span } = placeAt(band.now() - late);
    if (bars < 0) return;
    const key = names && span !== null ? nameKey(pitch, span, map) : null;
    named.textContent = key === null ? "" : nameWords(key);
    named.dataset.role = key?.role ?? "";
    row.strike((before ?? 0) + (Math.floor(bars) % chart.bars.length), bars % 1, pitch, key);
  };
}
