import { bisectRight } from "d3-array";
import type { ScoreModel } from "../score-model.ts";
import { directionElement } from "./direction-xml.ts";
import { harmonyElement } from "./harmony.ts";
import { element, textElement } from "./xml.ts";

/** Something that stands at a tick of a bar, above or below the notes; `xml` is given the offset still to go. */
export interface Mark {
  readonly tick: number;
  readonly xml: (offset: number) => string;
}

/** Marks of each bar, in order of time: headings, tempo, swing, words, pedal, chord symbols, words at notes. */
export function marksOfBars(score: ScoreModel, staves: boolean): Mark[][] {
  const starts: number[] = [];
  let tick = 0;
  for (const bar of score.bars) {
    starts.push(tick);
    tick += bar.ticks;
  }
  const bars = score.bars.map((): Mark[] => []);
  const staff = staves ? 1 : null;
  const put = (at: number, xml: (offset: number) => string): void => {
    const index = barAt(starts, at);
    bars[index]?.push({ tick: at - starts[index]!, xml });
  };
  score.bars.forEach((bar, index) => {
    if (bar.heading !== null) {
      bars[index]!.push({
        tick: 0,
        xml: (offset) => directionElement(textElement("rehearsal", bar.heading!), offset, staff),
      });
    }
  });
  for (const { tick: at, quartersPerMinute } of score.tempos) {
    put(at, (offset) =>
      directionElement(
        element(
          "metronome",
          {},
          textElement("beat-unit", "quarter"),
          textElement("per-minute", Math.round(quartersPerMinute * 100) / 100),
        ),
        offset,
        staff,
        element("sound", { tempo: quartersPerMinute }),
      ),
    );
  }
  if (score.swing !== null) {
    const { first, second, unit } = score.swing;
    put(0, (offset) =>
      directionElement(
        textElement("words", "Swing"),
        offset,
        staff,
        element(
          "sound",
          {},
          element(
            "swing",
            {},
            textElement("first", first),
            textElement("second", second),
            textElement("swing-type", unit),
          ),
        ),
      ),
    );
  }
  for (const { tick: at, text, below } of score.texts) {
    put(at, (offset) =>
      directionElement(textElement("words", text), offset, staff, "", below ? "below" : "above"),
    );
  }
  for (const { tick: at, down } of score.pedal) {
    put(at, (offset) => directionElement(element("pedal", { type: down ? "start" : "stop" }), offset, staff));
  }
  score.bars.forEach((bar, index) => {
    for (const { tick: at, text } of bar.chords) {
      bars[index]!.push({ tick: at, xml: (offset) => harmonyElement(text, offset, staff) });
    }
  });
  for (const marks of bars) marks.sort((a, b) => a.tick - b.tick);
  return bars;
}

function barAt(starts: readonly number[], tick: number): number {
  return Math.max(0, bisectRight(starts, tick) - 1);
}
