import type { PlayedBar } from "../../chart/play-order.ts";
import {
  type KeyMark,
  type MeterMark,
  Problem,
  type SourceChord,
  type SourceText,
  type StatedSwing,
} from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import { LIMITS } from "../limits.ts";
import type { PedalChange } from "../pedal.ts";
import type { WarningCollector } from "../warning-collector.ts";
import type { TimedBar } from "./bar-timeline.ts";

/** Facts of the score in the order of playing, times in ticks. */
export interface PlayedFacts {
  readonly tempos: readonly { readonly tick: number; readonly quartersPerMinute: number }[];
  readonly meters: readonly MeterMark[];
  readonly keys: readonly KeyMark[];
  readonly chords: readonly SourceChord[];
  readonly texts: readonly SourceText[];
  readonly pedal: readonly PedalChange[];
  readonly swing: StatedSwing | null;
}

/** What holds at the start of a written bar: a jump takes it up again. */
interface State {
  readonly tempo: number | null;
  readonly meter: { readonly beats: number; readonly unit: number };
  readonly key: { readonly fifths: number; readonly mode: "major" | "minor" } | null;
}

/**
 * Plays out tempo, meter, key, chord symbols, words and pedal with the bars. Where several parts state the same,
 * it counts once; where they differ at one place, the first part is heard.
 *
 * @throws Problem when there are more signs than the limits allow.
 */
export function playFacts(
  bars: readonly TimedBar[],
  order: readonly PlayedBar[],
  starts: readonly number[],
  firstMeter: { readonly beats: number; readonly unit: number },
  warnings: WarningCollector,
): PlayedFacts {
  const signs = order.reduce((sum, { bar }) => sum + bars[bar]!.facts.length, 0);
  if (signs > LIMITS.signs) {
    throw new Problem(
      "too-many-signs",
      `With its repeats the score has more than ${LIMITS.signs} words, chord symbols and other signs`,
      null,
      "Cut it into takes of a few minutes each.",
    );
  }
  const states = statesOf(bars, firstMeter);
  const tempos: { tick: number; quartersPerMinute: number }[] = [];
  const meters: MeterMark[] = [];
  const keys: KeyMark[] = [];
  const chords: SourceChord[] = [];
  const texts: SourceText[] = [];
  const pedal: PedalChange[] = [];
  let swing: StatedSwing | null = null;
  order.forEach(({ bar }, index) => {
    const start = starts[index]!;
    const { tempo, meter, key } = states[bar]!;
    if (tempo !== null) putTempo(tempos, start, tempo);
    putMeter(meters, { tick: start, ...meter });
    if (key !== null) putKey(keys, { tick: start, ...key });
    const said = new Set<string>();
    for (const { part, tick: within, event } of bars[bar]!.facts) {
      const tick = start + within;
      switch (event.kind) {
        case "tempo":
          putTempo(tempos, tick, event.quartersPerMinute);
          break;
        case "chord":
          if (chords.at(-1)?.tick !== tick) chords.push({ tick, text: event.text });
          else if (chords.at(-1)!.text !== event.text) {
            warnings.add(
              "chords-in-one-place",
              `bar ${bars[bar]!.number || bar + 1}`,
              (times) =>
                `In ${counted(times, "place")} the score has different chord symbols at once; the first was read.`,
            );
          }
          break;
        case "text": {
          const same = `${tick} ${event.as} ${event.text}`;
          if (!said.has(same)) texts.push({ tick, kind: event.as, text: event.text });
          said.add(same);
          break;
        }
        case "pedal":
          pedal.push({ tick, source: part, down: event.down });
          break;
        case "swing":
          swing ??= event.swing;
          break;
        case "meter":
        case "key":
          // Part of the bar's state.
          break;
      }
    }
  });
  return {
    tempos,
    meters,
    keys,
    chords: chords.sort(byTick),
    texts: texts.sort(byTick),
    pedal,
    swing,
  };
}

function statesOf(bars: readonly TimedBar[], firstMeter: State["meter"]): State[] {
  let tempo: number | null = null;
  let meter = firstMeter;
  let key: State["key"] = null;
  return bars.map((bar) => {
    let [meterHere, keyHere] = [false, false];
    for (const { event } of bar.facts) {
      if (event.kind === "meter" && !meterHere) {
        meter = { beats: event.beats, unit: event.unit };
        meterHere = true;
      } else if (event.kind === "key" && !keyHere) {
        key = { fifths: event.fifths, mode: event.mode };
        keyHere = true;
      }
    }
    const state = { tempo, meter, key };
    for (const { event } of bar.facts) if (event.kind === "tempo") tempo = event.quartersPerMinute;
    return state;
  });
}

function byTick(a: { readonly tick: number }, b: { readonly tick: number }): number {
  return a.tick - b.tick;
}

function putTempo(
  tempos: { tick: number; quartersPerMinute: number }[],
  tick: number,
  quartersPerMinute: number,
): void {
  if (tempos.at(-1)?.quartersPerMinute !== quartersPerMinute) tempos.push({ tick, quartersPerMinute });
}

function putMeter(meters: MeterMark[], mark: MeterMark): void {
  const last = meters.at(-1);
  if (last?.beats !== mark.beats || last.unit !== mark.unit) meters.push(mark);
}

function putKey(keys: KeyMark[], mark: KeyMark): void {
  const last = keys.at(-1);
  if (last?.fifths !== mark.fifths || last.mode !== mark.mode) keys.push(mark);
}
