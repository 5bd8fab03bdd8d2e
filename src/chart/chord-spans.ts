import { Problem } from "../take/index.ts";
import { alteredTensions, blueNotes, coloursOf, scaleOf } from "./chord-scale.ts";
import { functionsInKeys } from "./functions.ts";
import { keyInBar } from "./key.ts";
import { quartersPerBar } from "./meter.ts";
import { type Scale, scaleNamed } from "./scale.ts";
import type { Chart, ChartChord, ChordSpan, Key } from "./types.ts";

/** A scale chosen for the chord that sounds at a beat (in the meter's unit, from 1) of a bar. */
export interface ScaleChoice {
  readonly bar: number;
  readonly beat: number;
  readonly scale: string;
}

/**
 * Every chord of one chorus in order, with its function in the key and the scale, tensions, avoid notes and blue
 * notes that follow from it. A scale chosen in `overrides`, else in the chart, takes the place of the function's.
 *
 * Throws `Problem("not-a-scale")`, and `Problem("no-such-chord")` for a choice outside the chart.
 */
export function chordSpans(
  chart: Chart,
  overrides: { readonly scales?: readonly ScaleChoice[] } = {},
): ChordSpan[] {
  const placed = chart.bars.flatMap((bar) =>
    bar.chords.map((chord) => ({ bar: bar.number, key: keyInBar(chart, bar), chord })),
  );
  const chosen = new Map<ChartChord, string>();
  for (const choice of overrides.scales ?? []) {
    const found = placed.findLast(({ bar, chord }) => bar === choice.bar && chord.beat <= choice.beat);
    if (found === undefined || choice.beat >= found.chord.beat + found.chord.beats) {
      throw new Problem(
        "no-such-chord",
        `No chord stands at bar ${choice.bar}, beat ${choice.beat}`,
        `bar ${choice.bar}`,
        `Name a bar from 1 to ${chart.bars.length} and a beat from 1 to ${chart.meter.beats}.`,
      );
    }
    chosen.set(found.chord, choice.scale);
  }
  const functions = functionsInKeys(
    placed.map(({ chord, key }) => ({ chord: chord.chord, key })),
    chart.idiom,
  );
  const barLength = quartersPerBar(chart.meter);
  const beatLength = 4 / chart.meter.unit;
  return placed.map(({ bar, key, chord: written }, index) => {
    const { chord, symbol, beat } = written;
    const setting = { key, idiom: chart.idiom };
    const place = functions[index]!;
    const scaleName = chosen.get(written) ?? written.scale;
    const where = {
      index,
      bar,
      beat,
      key,
      start: (bar - 1) * barLength + (beat - 1) * beatLength,
      beats: written.beats * beatLength,
      chord,
      symbol,
      function: place.function,
      numeral: place.numeral,
    };
    if (chord === null) {
      const scale = scaleName === null ? silentScale(key) : scaleNamed(scaleName);
      return {
        ...where,
        scale: scale.name,
        scaleTones: scale.tones,
        tensions: [],
        avoid: [],
        altered: [],
        blue: [],
      };
    }
    const scale = scaleName === null ? scaleOf(chord, place, setting) : scaleNamed(scaleName);
    const { tensions, avoid } = coloursOf(chord, scale, place);
    const blue = blueNotes(chord, place, tensions, setting);
    // A scale chosen by hand says itself what belongs to the chord.
    const altered = scaleName === null ? alteredTensions(chord, place, [...tensions, ...blue]) : [];
    return { ...where, scale: scale.name, scaleTones: scale.tones, tensions, avoid, altered, blue };
  });
}

/** Where no chord sounds, the key's own scale remains. */
function silentScale(key: Key): Scale {
  return scaleNamed(key.mode === "major" ? "Ionian" : "Aeolian");
}
