/** The chords of one bar of a chart's text, and their beats. */

import { mendFor } from "./chart-mends.ts";
import { chartProblem, type Place, placed } from "./chart-place.ts";
import { parseChord } from "./chord-symbol.ts";
import { inEnglish, isChord, type NoteNames } from "./note-names.ts";
import { scaleNamed } from "./scale.ts";
import type { ChartChord, Meter } from "./types.ts";

/** A chord with its written length, before its bar is known to be complete. */
export interface WrittenChord {
  readonly symbol: string;
  readonly chord: ChartChord["chord"];
  readonly scale: string | null;
  readonly beats: number | null;
  /** As typed. */
  readonly text: string;
  /** True when its root is a small letter. */
  readonly small: boolean;
  /** True when it takes in the chord before: "Eb maj7", "C /E". */
  readonly joined: boolean;
}

interface Context {
  readonly names: NoteNames;
  readonly place: Place;
  /** The chord that stands right before it, with space between. */
  readonly before: WrittenChord | null;
  /** True inside brackets around chords: the closing one is none of the chord's. */
  readonly bracketed: boolean;
}

/** Longer pieces are no chord with strokes behind it, and would take long to cut. */
const MOST_HELD = 80;

/** Two lengths closer than this, in beats, are the same. */
const SAME_BEATS = 1e-6;

const CHORD_TOKEN = /[^\s|{}:(),;]*(?:\([^()|{}:]*\)[^\s|{}:(),;]*)*/y;
/** What can only go on from a root that stands before it. */
const TAIL = /^(?:maj|min|mi?|ma|M|dim|aug|sus|alt|add|no|dom|[b#♭♯]\d|[Δ°øo+^]|-\d|\d|\(|\/[A-Ga-g])/;
const BROKEN_TOKEN = /[^\s|{}:]+|./y;

/** Reads "C7(b9){altered}:2" at a place of the line; gives the chord and where it ends. */
export function readChord(line: string, at: number, context: Context): [WrittenChord, number] {
  const { place } = context;
  let text = sticky(CHORD_TOKEN, line, at)![0];
  const next = line.charAt(at + text.length);
  if (text === "" || next === "(" || (next === ")" && !context.bracketed))
    text = sticky(BROKEN_TOKEN, line, at)![0];
  const sign = /^(?:\/:|:\/|\[:|:\])/.test(line.slice(at, at + 2))
    ? mendFor(line.slice(at, at + 2), place)
    : null;
  if (sign !== null) throw sign;
  // Strokes behind a chord are beats on which it goes on.
  if (text.length <= MOST_HELD && /^[^/].*\/$/.test(text)) text = text.replace(/\/+$/, "");
  let end = at + text.length;
  const read = chordIn(text, context);
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
  return [{ ...read, scale, beats }, end];
}

type Read = Omit<WrittenChord, "scale" | "beats">;

/** The chord that a text is, alone or with the one before it; throws a problem with the mend that fits. */
function chordIn(text: string, { names, place, before }: Context): Read {
  const english = inEnglish(text, names);
  const alone = english === null ? null : chordOrNull(english);
  if (alone !== null) return { ...alone, text, small: false, joined: false };
  if (before !== null && before.beats === null && TAIL.test(text)) {
    const both = before.text + text;
    const joined = chordOrNull(inEnglish(both, names) ?? both);
    if (joined !== null && goesOnFrom(before, text, names)) {
      return { ...joined, text: both, small: before.small, joined: true };
    }
  }
  if (names !== "solfege" && /^[a-g]/.test(text)) {
    const capital = text.charAt(0).toUpperCase() + text.slice(1);
    const small = chordOrNull(inEnglish(capital, names) ?? capital);
    if (small !== null) return { ...small, text: capital, small: true, joined: false };
  }
  const mend = mendFor(text, place);
  if (mend !== null) throw mend;
  if (english === null) {
    throw chartProblem(
      "not-a-chord",
      `"${text.slice(0, 40)}" does not start with a name of the kind that the chart says it uses, ${names}`,
      place,
      names === "solfege"
        ? "Write do, re, mi, fa, sol, la, si: Sol7, Mibmaj7."
        : "Write A to H: B7, Esmaj7, Fism7.",
    );
  }
  const chord = placed(place, () => parseChord(english));
  return { chord, symbol: chord?.symbol ?? "N.C.", text, small: false, joined: false };
}

/** Whether a text that is no chord alone goes on from the chord before it: "Eb maj 7", "C /E", "F7 alt", "F7 b9". */
function goesOnFrom(before: WrittenChord, text: string, names: Context["names"]): boolean {
  if (text.startsWith("/") || text.startsWith("(")) return true;
  if (/^[A-Ga-g][b#♭♯]?$/.test(inEnglish(before.text, names) ?? before.text)) return true;
  if (/^\d/.test(text) && !/\d$/.test(before.text)) return true;
  return !before.small && /\d$/.test(before.text) && /^(?:alt|sus|add\d|[b#♭♯]\d)/i.test(text);
}

function chordOrNull(text: string): Pick<WrittenChord, "chord" | "symbol"> | null {
  if (!isChord(text)) return null;
  const chord = parseChord(text);
  return { chord, symbol: chord?.symbol ?? "N.C." };
}

/** Gives every chord of a bar its beats; those without a number share what is left evenly. */
export function shareBeats(written: readonly WrittenChord[], meter: Meter, place: Place): ChartChord[] {
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
