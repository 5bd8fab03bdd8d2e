import type { SourceChord, SourceText } from "../take/index.ts";

/** The texts of one kind in one track, in order of time. */
export type TextGroup = readonly SourceText[];

/** Share of a group's texts that must read as chords before any of them is taken as one. */
const CHORD_SHARE = 0.75;

const ROOT = "[A-G](?:#{1,2}|b{1,2}|♯|♭)?";
const QUALITY = "(?:maj|Maj|MAJ|ma|Ma|M|min|Min|mi|m|-|dim|°|o|ø|aug|\\+|sus|add|alt|omit|no|Δ|\\^)";
const CHORD = new RegExp(
  `^(?:N\\.?C\\.?|${ROOT}(?:${QUALITY}|[#b♯♭+-]?(?:2|4|5|6|7|9|11|13|69)|[(),/ ]+(?=\\S))*\\)?(?:/${ROOT})?)$`,
);

/**
 * Tells whether a text is a chord symbol in one of the usual spellings.
 *
 * @example readsAsChord("Bb7(b9)") // true
 * @example readsAsChord("Be") // false
 */
export function readsAsChord(text: string): boolean {
  return text.length <= 24 && CHORD.test(text);
}

/**
 * Finds chord symbols among the texts of a MIDI file. Words can look like chords ("A", "Am", "Add"), so texts are
 * judged by their layer: at least two in one layer, three quarters of which read as chords; a layer of bare letters
 * in alphabetical order from A is a row of rehearsal marks.
 */
export function chordsOfTexts(groups: readonly TextGroup[]): SourceChord[] {
  const chords: SourceChord[] = [];
  for (const group of groups) {
    const candidates = group.filter(({ kind, text }) => isLayer(kind) && readsAsChord(text));
    if (candidates.length < 2 || candidates.length < CHORD_SHARE * group.length) continue;
    if (isRehearsalMarks(candidates)) continue;
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
