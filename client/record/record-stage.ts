/** What is seen while playing: the chart going by, the keys, and where the hand may stand. */
import type { Chart } from "../../src/chart/types.ts";
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { count, withAccidentals } from "../../src/words/index.ts";
import { drawKeyboard, layKeyboard } from "../draw/keyboard.ts";
import { h, s } from "../shell/dom.ts";
import type { Band } from "./band.ts";
import type { RecordingSettings } from "./record-states.ts";

/** Keys that are drawn, and units of the drawing across: a phone shows the middle of the piano. */
const WIDE = { low: 36, high: 96, across: 1000 };
const NARROW = { low: 53, high: 84, across: 440 };
const NARROW_WINDOW = 640;

export interface RecordStage {
  readonly chartBoard: HTMLElement;
  readonly board: SVGSVGElement;
  /** One line: where in the form, and how many notes. */
  readonly place: HTMLElement;
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
  /** Notes so far. */
  heard(): number;
  /** Told once, when the count-in is over. */
  barOne(): void;
}

export function recordStage(): RecordStage {
  const { low, high, across } = window.innerWidth < NARROW_WINDOW ? NARROW : WIDE;
  const keys = layKeyboard(low, high, across);
  const board = s("svg", {
    viewBox: `0 0 ${across} 110`,
    class: "record-keys",
    role: "img",
    "aria-label": "Keyboard with the keys that are pressed",
  });
  const keyboard = drawKeyboard(keys, { y: 1, height: 106 });
  const marks = s("g", {});
  board.append(keyboard, marks);
  const rect = new Map(
    [...keyboard.querySelectorAll<SVGRectElement>(".key")].map((key) => [Number(key.dataset.pitch), key]),
  );
  const chartBoard = h("div", { class: "going-by", "aria-hidden": "true" });
  const place = h("p", { class: "now-playing", role: "status" }, "Ready.");
  let frame = 0;
  return {
    chartBoard,
    board,
    place,
    press: (pitch, down) => rect.get(pitch)?.classList.toggle("under", down),
    follow(playing) {
      layChart(chartBoard, playing.chart);
      const barSeconds = barLength(playing);
      const turnBar = barTurner(playing, chartBoard, place);
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
    },
  };
}

const barLength = ({ chart, settings }: Followed): number =>
  ((chart.meter.beats * 4) / chart.meter.unit) * (60 / settings.quartersPerMinute);

/** Says and marks the bar, when it is another one than before; `bars` since the first bar of the form. */
function barTurner(playing: Followed, chartBoard: HTMLElement, place: HTMLElement): (bars: number) => void {
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
    for (const [i, field] of [...chartBoard.children].entries())
      field.classList.toggle("now", whole >= 0 && i === bar);
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
    const way = map.way.steps.find((step) => step.span === chord.span)?.placement;
    showPlacement(marks, keys, chord.placements.find((one) => one.id === way) ?? chord.placements[0]);
  };
}

function layChart(board: HTMLElement, chart: Chart): void {
  board.replaceChildren(
    ...chart.bars.map((bar) =>
      h(
        "div",
        { class: "bar-now" },
        h("span", { class: "faint" }, bar.number),
        ` ${bar.chords.map((chord) => withAccidentals(chord.symbol)).join(" ")}`,
      ),
    ),
  );
}

function showPlacement(
  marks: SVGGElement,
  keys: ReturnType<typeof layKeyboard>,
  placement: PlacementMap["chords"][number]["placements"][number] | undefined,
): void {
  marks.replaceChildren(
    ...(placement?.keys ?? []).flatMap((key) => {
      if (key.pitch < keys.low || key.pitch > keys.high) return [];
      const x = keys.centre(key.pitch);
      const y = key.black ? 50 : 88;
      return [
        s("circle", { class: "finger-spot", cx: x.toFixed(1), cy: y, r: 8 }),
        s("text", { class: "finger-number", x: x.toFixed(1), y: y + 4, "text-anchor": "middle" }, key.finger),
      ];
    }),
  );
}
