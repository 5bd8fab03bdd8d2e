/** The chords of one bar of a chart's text, and their beats. */
import { chartProblem, type Place, placed } from "./chart-place.ts";
import { parseChord } from "./chord-symbol.ts";
import { scaleNamed } from "./scale.ts";
import type { ChartChord, Meter } from "./types.ts";

/** A chord with its written length, before its bar is known to be complete. */
export interface WrittenChord {
  readonly symbol: string;
  readonly chord: ChartChord["chord"];
  readonly scale: string | null;
  readonly beats: number | null;
}

/** Two lengths closer than this, in beats, are the same. */
const SAME_BEATS = 1e-6;

const CHORD_TOKEN = /[^\s|{}:()]*(?:\([^()|{}:]*\)[^\s|{}:()]*)*/y;
const BROKEN_TOKEN = /[^\s|{}:]+|./y;

/** Reads "C7(b9){altered}:2" at a place of the line; gives the chord and where it ends. */
export function readChord(line: string, at: number, place: Place): [WrittenChord, number] {
  let text = sticky(CHORD_TOKEN, line, at)![0];
  if (text === "" || /[()]/.test(line.charAt(at + text.length))) text = sticky(BROKEN_TOKEN, line, at)![0];
  let end = at + text.length;
  const chord = text === "%" ? null : placed(place, () => parseChord(text));
  let scale: string | null = null;
  const scaleText = sticky(/\{([^{}|]{0,60})\}/y, line, end);
  if (scaleText !== null) {
    scale = placed(place, () => scaleNamed(scaleText[1]!)).name;
    end += scaleText[0].length;
  }
  let beats: number | null = null;
  const length = sticky(/:(\d{1,3}(?:\.\d{1,20})?)/y, line, end);
  if (length !== null) {
    beats = Number(length[1]);
    end += length[0].length;
  } else if (line.charAt(end) === ":" && line.charAt(end + 1) !== "|") {
    throw chartProblem(
      "beats-do-not-fit",
      `"${text}:" has no number of beats`,
      place,
      'Write the beats after the colon: "C7:3".',
    );
  }
  if (text === "%" && (scale !== null || beats !== null)) {
    throw chartProblem(
      "nothing-to-repeat",
      '"%" takes no beats and no scale',
      place,
      "It repeats the whole bar before.",
    );
  }
  return [{ symbol: text === "%" ? "%" : (chord?.symbol ?? "N.C."), chord, scale, beats }, end];
}

/** Gives every chord of a bar its beats; those without a number share what is left evenly. */
export function shareBeats(written: readonly WrittenChord[], meter: Meter, place: Place): ChartChord[] {
  if (written.some(({ symbol }) => symbol === "%")) {
    throw chartProblem(
      "nothing-to-repeat",
      '"%" stands beside a chord',
      place,
      "It repeats the whole bar before: let it stand alone.",
    );
  }
  const given = written.reduce((sum, { beats }) => sum + (beats ?? 0), 0);
  const sharing = written.filter(({ beats }) => beats === null).length;
  const left = meter.beats - given;
  const fits = sharing === 0 ? Math.abs(left) < SAME_BEATS : left > SAME_BEATS;
  if (!fits || written.some(({ beats }) => beats === 0)) {
    throw chartProblem(
      "beats-do-not-fit",
      `"${written.map(({ symbol, beats }) => symbol + (beats === null ? "" : `:${beats}`)).join(" ")}" does not fit a bar of ${meter.beats} beats`,
      place,
      `Write beats after ":" that add up to ${meter.beats}, or none at all to share the bar evenly.`,
    );
  }
  let beat = 1;
  return written.map(({ symbol, chord, scale, beats: own }) => {
    const beats = own ?? left / sharing;
    const start = beat;
    beat += beats;
    return { chord, symbol, beat: start, beats, scale };
  });
}

function sticky(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}
