/** What is seen while playing: the chart going by, the keys, and where the hand may stand. */
import { chordSpans } from "../../src/chart/chord-spans.ts";
import type { Chart } from "../../src/chart/types.ts";
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { count } from "../../src/words/index.ts";
import { drawKeyboard, layKeyboard } from "../draw/keyboard.ts";
import { h, s } from "../shell/dom.ts";
import type { Band } from "./band.ts";
import { type ChartRow, chartRow } from "./chart-row.ts";
import type { Played } from "./key-input.ts";
import { nameKey, nameWords, spanAt } from "./named-key.ts";
import type { RecordingSettings } from "./record-states.ts";

/** Keys that are drawn, and units of the drawing across: a phone shows the middle of the piano. */
const WIDE = { low: 36, high: 96, across: 1000 };
/** Keys are at least 24 pixels wide there, so that a finger finds them. */
const NARROW = { low: 60, high: 79, across: 340 };
const NARROW_WINDOW = 640;

export interface RecordStage {
  readonly chartBoard: HTMLElement;
  readonly board: SVGSVGElement;
  /** One line: where in the form, and how many notes. */
  readonly place: HTMLElement;
  /** What the key that was pressed last is to its chord; empty while names are muted. */
  readonly named: HTMLElement;
  press(pitch: number, down: boolean): void;
  /** Goes along with the band until `rest`. */
  follow(playing: Followed): void;
  rest(): void;
}

export interface Followed {
  readonly chart: Chart;
  readonly settings: Pick<RecordingSettings, "quartersPerMinute" | "countInBars">;
  readonly map: PlacementMap | null;
  readonly band: Band;
  /** Whether each key is named as it is pressed: not in an exam. */
  readonly names: boolean;
  /** Notes so far. */
  heard(): number;
  /** Told once, when the count-in is over. */
  barOne(): void;
}

/** @param touched told of keys that are pressed on the drawing itself */
export function recordStage(touched: (event: Played) => void): RecordStage {
  const { low, high, across } = window.innerWidth < NARROW_WINDOW ? NARROW : WIDE;
  const keys = layKeyboard(low, high, across);
  const board = s("svg", {
    viewBox: `0 0 ${across} 110`,
    class: "record-keys",
    role: "img",
    "aria-label": "Keyboard: shows the keys that are pressed, and is played by touch",
  });
  const keyboard = drawKeyboard(keys, { y: 1, height: 106 });
  const marks = s("g", {});
  board.append(keyboard, marks);
  onTouch(keyboard, touched);
  const rect = new Map(
    [...keyboard.querySelectorAll<SVGRectElement>(".key")].map((key) => [Number(key.dataset.pitch), key]),
  );
  const row = chartRow();
  const named = h("p", { class: "named-key", role: "status", "aria-live": "off" });
  let name: (pitch: number) => void = () => {};
  const place = h("p", { class: "now-playing", role: "status" }, "Ready.");
  let frame = 0;
  return {
    chartBoard: row.element,
    ...{ board, place, named },
    press(pitch, down) {
      rect.get(pitch)?.classList.toggle("under", down);
      if (down) name(pitch);
    },
    follow(playing) {
      row.lay(playing.chart);
      named.textContent = "";
      name = keyNamer(playing, row, named);
      const barSeconds = barLength(playing);
      const turnBar = barTurner(playing, row, place);
      const turnHand = handTurner(playing, marks, keys);
      const turn = () => {
        const bars = playing.band.now() / barSeconds - playing.settings.countInBars;
        turnBar(bars);
        turnHand(bars);
        frame = requestAnimationFrame(turn);
      };
      turn();
    },
    rest() {
      cancelAnimationFrame(frame);
      marks.replaceChildren();
      name = () => {};
    },
  };
}

const barLength = ({ chart, settings }: Followed): number =>
  ((chart.meter.beats * 4) / chart.meter.unit) * (60 / settings.quartersPerMinute);

/** Says and marks the bar, when it is another one than before; `bars` since the first bar of the form. */
function barTurner(playing: Followed, row: ChartRow, place: HTMLElement): (bars: number) => void {
  const { length } = playing.chart.bars;
  let shown = Number.NaN;
  return (bars) => {
    const whole = Math.floor(bars);
    if (whole === shown) return;
    if (whole >= 0 && !(shown >= 0)) playing.barOne();
    shown = whole;
    const bar = ((whole % length) + length) % length;
    const chorus = Math.floor(whole / length) + 1;
    place.textContent =
      whole < 0
        ? `Count-in: ${count(-whole, "bar")} to go.`
        : `Chorus ${chorus}, bar ${bar + 1}. ${count(playing.heard(), "note")} so far.`;
    row.turn(whole >= 0 ? bar : null);
  };
}

/** Shows the placement of the chord under way, from a bar before the form. */
function handTurner(
  { chart, map }: Followed,
  marks: SVGGElement,
  keys: ReturnType<typeof layKeyboard>,
): (bars: number) => void {
  let span = -1;
  return (bars) => {
    if (!map || bars < -1) return;
    const at = Math.max(0, bars % chart.bars.length);
    const beat = (at % 1) * chart.meter.beats + 1;
    const chord = map.chords.findLast(
      (one) => one.bar - 1 < Math.floor(at) || (one.bar - 1 === Math.floor(at) && one.beat <= beat + 0.01),
    );
    if (!chord || chord.span === span) return;
    span = chord.span;
    const next = map.chords[(map.chords.indexOf(chord) + 1) % map.chords.length]!;
    showPlacement(marks, keys, onWay(map, chord), onWay(map, next));
  };
}

const onWay = (map: PlacementMap, chord: PlacementMap["chords"][number]) => {
  const way = map.way.steps.find((step) => step.span === chord.span)?.placement;
  return chord.placements.find((one) => one.id === way) ?? chord.placements[0];
};

/** Names a key in the very moment at which it is pressed, and puts its sign into the bar. */
function keyNamer(
  { chart, settings, map, band, names }: Followed,
  row: ChartRow,
  named: HTMLElement,
): (pitch: number) => void {
  const spans = chordSpans(chart);
  const barSeconds = ((chart.meter.beats * 4) / chart.meter.unit) * (60 / settings.quartersPerMinute);
  return (pitch) => {
    const bars = band.now() / barSeconds - settings.countInBars;
    if (bars < 0) return;
    const span = spanAt(spans, chart, bars);
    const key = names && span !== null ? nameKey(pitch, span, map) : null;
    named.textContent = key === null ? "" : nameWords(key);
    named.dataset.role = key?.role ?? "";
    row.strike(Math.floor(bars) % chart.bars.length, bars % 1, pitch, key);
  };
}

/** A finger or a mouse on a drawn key plays it until it is let go. */
function onTouch(keyboard: SVGGElement, play: (event: Played) => void): void {
  const held = new Map<number, number>();
  keyboard.addEventListener("pointerdown", (event) => {
    const pitch = Number((event.target as SVGElement).dataset.pitch);
    if (Number.isNaN(pitch)) return;
    event.preventDefault();
    held.set(event.pointerId, pitch);
    keyboard.setPointerCapture(event.pointerId);
    play({ pitch, velocity: 84, at: event.timeStamp });
  });
  for (const end of ["pointerup", "pointercancel"] as const) {
    keyboard.addEventListener(end, (event) => {
      const pitch = held.get(event.pointerId);
      if (pitch === undefined) return;
      held.delete(event.pointerId);
      play({ pitch, velocity: 0, at: event.timeStamp });
    });
  }
}

type Standing = PlacementMap["chords"][number]["placements"][number] | undefined;

/** The placement under way with its fingers, and the keys of the next one as rings, where it is another one. */
function showPlacement(
  marks: SVGGElement,
  keys: ReturnType<typeof layKeyboard>,
  placement: Standing,
  next: Standing,
): void {
  const shown = (one: Standing) =>
    (one?.keys ?? []).filter(({ pitch }) => pitch >= keys.low && pitch <= keys.high);
  const at = (key: { readonly pitch: number; readonly black: boolean }) =>
    ({ x: keys.centre(key.pitch), y: key.black ? 50 : 88 }) as const;
  const now = new Set(shown(placement).map(({ pitch }) => pitch));
  marks.replaceChildren(
    ...shown(next)
      .filter(({ pitch }) => !now.has(pitch))
      .map((key) => s("circle", { class: "finger-next", cx: at(key).x.toFixed(1), cy: at(key).y, r: 7 })),
    ...shown(placement).flatMap((key) => {
      const { x, y } = at(key);
      return [
        s("circle", { class: "finger-spot", cx: x.toFixed(1), cy: y, r: 8 }),
        s("text", { class: "finger-number", x: x.toFixed(1), y: y + 4, "text-anchor": "middle" }, key.finger),
      ];
    }),
  );
}
