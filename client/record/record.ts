/** Record a solo at the page: choose a chart and a tempo, play to the click, stop, and it is a take. */
import type { Chart } from "../../src/chart/types.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { count, withAccidentals } from "../../src/words/index.ts";
import { drawKeyboard, layKeyboard } from "../draw/keyboard.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { handSlot } from "../parts/hand-choice.ts";
import { forms, players, read, sendTake, shapes } from "../shell/api.ts";
import { h, s } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import type { Backing } from "../sound/backing.ts";
import type { Band } from "./band.ts";
import { clickPlaces } from "./click-places.ts";
import { listenToKeys, type Played } from "./key-input.ts";
import { microphone } from "./microphone.ts";
import { midiChoice } from "./midi-choice.ts";
import type { Recording } from "./recording.ts";

/** Keys that are drawn, and units of the drawing across: a phone shows the middle of the piano. */
const WIDE = { low: 36, high: 96, across: 1000 };
const NARROW = { low: 53, high: 84, across: 440 };
const NARROW_WINDOW = 640;

export const recordPage: PageMaker = async (_parameters, _query, shell) => {
  const [formRows, playerRows] = await Promise.all([forms(), players()]);
  const chartChoice = chartFields(formRows, { fromTake: false, legend: "The chart" });
  const hand = handSlot(shapes.list);
  const tempo = h("input", { type: "number", name: "tempo", min: 40, max: 320, value: 112 });
  const countIn = h("input", { type: "number", name: "count-in", min: 1, max: 4, value: 2 });
  const player = h("input", { name: "player", list: "record-players", autocomplete: "off" });
  const title = h("input", { name: "title", autocomplete: "off", value: "Recorded here" });
  const box = (label: string, checked: boolean) => {
    const input = h("input", { type: "checkbox", checked });
    return { input, label: h("label", { class: "choice" }, input, ` ${label}`) };
  };
  const withClick = box("click", true);
  const withBass = box("walking bass", true);
  const withShells = box("shells", false);
  const withPlacements = box("show where the hand may stand", true);
  const ownSound = box("sound what I play", true);
  const trouble = h("div", {});
  const chartBoard = h("div", { class: "going-by", "aria-hidden": "true" });
  const place = h("p", { class: "now-playing", role: "status" }, "Ready.");
  const octave = h("p", { class: "hint" }, keyWords(60));
  const start = h("button", { type: "button", class: "main", onClick: () => void toggle() }, "Start");

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

  let band: Band | null = null;
  let recording: Recording | null = null;
  let frame = 0;
  let heard = 0;

  const hear = ({ pitch, velocity, at }: Played) => {
    rect.get(pitch)?.classList.toggle("under", velocity > 0);
    if (!band || !recording) return;
    if (velocity > 0) {
      heard++;
      if (ownSound.input.checked) band.strike(pitch, velocity);
    }
    recording.press(pitch, velocity, (at - band.startedAt) / 1000);
  };
  const keyboards = midiChoice(hear, (down, at) => {
    if (band) recording?.pedal(down, (at - band.startedAt) / 1000);
  });
  const mic = microphone();
  const endKeys = listenToKeys(hear, (lowest) => {
    octave.textContent = keyWords(lowest);
  });
  const chartOf = async (): Promise<Chart> => {
    const fields = chartChoice.read();
    const { formChart, parseChart } = await import("../../src/chart/index.ts");
    return fields.chart !== undefined
      ? parseChart(fields.chart)
      : formChart(fields.form ?? "", fields.key ?? "C");
  };

  /** The map is of the shapes that were chosen; else of one, for all at once are no help while playing. */
  const whereToStand = (): URLSearchParams => {
    const question = new URLSearchParams(chartChoice.read());
    const { shapes, soloHand } = hand.read();
    for (const name of shapes?.length ? shapes : [BUILT_IN_SHAPES[0]!.name]) question.append("shape", name);
    if (soloHand === "left") question.set("hand", "left");
    return question;
  };

  const toggle = () => (band ? stop() : begin());

  const begin = async () => {
    trouble.replaceChildren();
    start.disabled = true;
    start.textContent = "Loading …";
    try {
      const chart = await chartOf();
      const [{ startBand }, { createRecording }] = await Promise.all([
        import("./band.ts"),
        import("./recording.ts"),
      ]);
      const map = withPlacements.input.checked
        ? await read<PlacementMap>(`/placements?${whereToStand()}`)
        : null;
      const backing = new Set<Backing>();
      if (withClick.input.checked) backing.add("click");
      if (withBass.input.checked) backing.add("bass");
      if (withShells.input.checked) backing.add("shells");
      const quartersPerMinute = Number(tempo.value) || 112;
      recording = createRecording();
      heard = 0;
      band = await startBand({
        chart,
        quartersPerMinute,
        countInBars: Number(countIn.value) || 2,
        backing,
        ownKeys: ownSound.input.checked ? Array.from({ length: 12 }, (_, i) => 48 + i * 3) : [],
      });
      mic.start();
      start.textContent = "Stop and analyse";
      layChart(chartBoard, chart);
      follow(chart, quartersPerMinute, Number(countIn.value) || 2, map);
    } catch (error) {
      band?.stop();
      band = null;
      start.textContent = "Start";
      trouble.replaceChildren(refusalNote(error));
    } finally {
      start.disabled = false;
    }
  };

  const follow = (chart: Chart, quartersPerMinute: number, countInBars: number, map: PlacementMap | null) => {
    const barSeconds = ((chart.meter.beats * 4) / chart.meter.unit) * (60 / quartersPerMinute);
    let shown = Number.NaN;
    let span = -1;
    const turn = () => {
      if (!band) return;
      const bars = band.now() / barSeconds - countInBars;
      const whole = Math.floor(bars);
      if (whole !== shown) {
        shown = whole;
        const bar = ((whole % chart.bars.length) + chart.bars.length) % chart.bars.length;
        const chorus = Math.floor(whole / chart.bars.length) + 1;
        place.textContent =
          whole < 0
            ? `Count-in: ${count(-whole, "bar")} to go.`
            : `Chorus ${chorus}, bar ${bar + 1}. ${count(heard, "note")} so far.`;
        for (const [i, field] of [...chartBoard.children].entries())
          field.classList.toggle("now", whole >= 0 && i === bar);
      }
      if (map && whole >= -1) {
        const at = Math.max(0, bars % chart.bars.length);
        const beat = (at % 1) * chart.meter.beats + 1;
        const chord = map.chords.findLast(
          (one) =>
            one.bar - 1 < Math.floor(at) || (one.bar - 1 === Math.floor(at) && one.beat <= beat + 0.01),
        );
        if (chord && chord.span !== span) {
          span = chord.span;
          const way = map.way.steps.find((step) => step.span === chord.span)?.placement;
          showPlacement(marks, keys, chord.placements.find((one) => one.id === way) ?? chord.placements[0]);
        }
      }
      frame = requestAnimationFrame(turn);
    };
    turn();
  };

  const stop = async () => {
    const [playing, taken] = [band, recording];
    if (!playing || !taken) return;
    cancelAnimationFrame(frame);
    const recorded = taken.finish(playing.now());
    playing.stop();
    const sound = await mic.stop();
    band = null;
    recording = null;
    marks.replaceChildren();
    // What a keyboard sent is surer than what a microphone heard.
    const bySound = recorded.notes.length === 0 ? sound : null;
    if (recorded.notes.length === 0 && bySound === null) {
      start.textContent = "Start";
      place.textContent = "Nothing was played, so there is no take. Start again when you like.";
      return;
    }
    start.disabled = true;
    start.textContent = "Being analysed …";
    try {
      const quartersPerMinute = Number(tempo.value) || 112;
      const known = { ...hand.read(), tempo: quartersPerMinute };
      const fields = (options: object) => ({
        ...chartChoice.read(),
        player: player.value.trim(),
        title: title.value.trim() || "Recorded here",
        date: new Date().toISOString().slice(0, 10),
        options: JSON.stringify(options),
      });
      if (bySound !== null) {
        const { sendSound } = await import("./send-sound.ts");
        // When the microphone began is not known to the click, so the bars are found by what is heard.
        const id = await sendSound(bySound, fields(known), mic.keeps, (words) => {
          place.textContent = words;
        });
        shell.go(`/takes/${id}`);
        return;
      }
      const chart = await chartOf();
      const { recordingFile } = await import("./recording.ts");
      const bytes = recordingFile(recorded, quartersPerMinute, chart.meter);
      const barSeconds = ((chart.meter.beats * 4) / chart.meter.unit) * (60 / quartersPerMinute);
      const last = recorded.notes.at(-1)!.onset;
      const anchors = clickPlaces(barSeconds, Number(countIn.value) || 2, chart.bars.length, last);
      const { take } = await sendTake(
        fields({ ...known, method: "click", anchors }),
        new File([bytes.slice()], "recording.mid", { type: "audio/midi" }),
        () => {},
      );
      shell.go(`/takes/${take.id}`);
    } catch (error) {
      trouble.replaceChildren(refusalNote(error));
    } finally {
      start.disabled = false;
      start.textContent = "Start";
    }
  };

  return {
    title: "Record",
    element: h(
      "div",
      { class: "stack" },
      h(
        "section",
        { class: "sheet" },
        h("h1", {}, "Record a solo"),
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
          h(
            "datalist",
            { id: "record-players" },
            ...playerRows.map(({ name }) => h("option", { value: name })),
          ),
          h(
            "div",
            { class: "choices record-choices" },
            withClick.label,
            withBass.label,
            withShells.label,
            ownSound.label,
            withPlacements.label,
          ),
        ),
        h("fieldset", {}, h("legend", {}, "Your keyboard"), keyboards.element, octave),
        ...[mic.element, trouble],
      ),
      h(
        "section",
        { class: "sheet record-stage" },
        h("div", { class: "play-row" }, start, place),
        chartBoard,
        board,
      ),
    ),
    end() {
      cancelAnimationFrame(frame);
      band?.stop();
      band = null;
      endKeys();
      keyboards.end();
      mic.end();
    },
  };
};

function keyWords(lowest: number): string {
  return `Without one: the computer's middle letter row plays white keys from C${Math.floor(lowest / 12) - 1}, the row above it the black ones; the two leftmost letters of the bottom row move by an octave.`;
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
