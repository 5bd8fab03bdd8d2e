import { isChord } from "../chart/index.ts";
import type { SourceChord, SourceText } from "../take/index.ts";

/** The texts of one kind in one track. */
export interface TextGroup {
  /** True when the track is called "Chords". */
  readonly named: boolean;
  /** In order of time. */
  readonly texts: readonly SourceText[];
}

/** Share of a group's texts that must read as chords before any of them is taken as one. */
const CHORD_SHARE = 0.75;

/**
 * Tells whether a text is a chord symbol in one of the usual spellings.
 *
 * @example readsAsChord("Bb7(b9)") // true
 * @example readsAsChord("Be") // false
 */
function readsAsChord(text: string): boolean {
  return text.length <= 24 && /^[A-GN]/.test(text) && isChord(text);
}

/**
 * Finds chord symbols among the texts of a MIDI file. Words can look like chords ("A", "Am", "Add"), so texts are
 * judged by their layer: at least two in one layer, three quarters of which read as chords; a layer of bare letters
 * in alphabetical order from A is a row of rehearsal marks. A track called "Chords" is believed at once.
 */
export function chordsOfTexts(groups: readonly TextGroup[]): SourceChord[] {
  const chords: SourceChord[] = [];
  for (const { named, texts } of groups) {
    const candidates = texts.filter(({ kind, text }) => isLayer(kind) && readsAsChord(text));
    if (candidates.length < (named ? 1 : 2) || candidates.length < CHORD_SHARE * texts.length) continue;
    if (!named && isRehearsalMarks(candidates)) continue;
    for (const { tick, text } of candidates) chords.push({ tick, text });
  }
  return chords.sort((a, b) => a.tick - b.tick);
}

function isLayer(kind: SourceText["kind"]): boolean {
  return kind === "text" || kind === "lyric" || kind === "marker" || kind === "cue";
}

/** "A A B A", "A B C": each letter is one heard before or the next of the alphabet. */
function isRehearsalMarks(texts: readonly SourceText[]): boolean {
  let next = "A".charCodeAt(0);
  return texts.every(({ text }) => {
    if (text.length !== 1 || text.charCodeAt(0) > next) return false;
    if (text.charCodeAt(0) === next) next++;
    return true;
  });
}
