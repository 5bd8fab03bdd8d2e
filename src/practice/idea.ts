import type { AccountNote, Analysis } from "../account.ts";
import type { Finger } from "../take/index.ts";

/** A student's own idea as fingers and rhythm, so that it can be played at any placement. */
export interface Idea {
  readonly fingers: readonly Finger[];
  /** Quarter-note beats from the bar line in which it starts. */
  readonly onsets: readonly number[];
  readonly beats: readonly number[];
  /** Where it comes from: the notes of the take, or none when the student has no such idea yet. */
  readonly notes: readonly string[];
}

/** For those who have no idea of their own yet: up, turn, home. [practice] */
const BORROWED: Idea = { fingers: [2, 3, 4, 2], onsets: [0, 0.5, 1, 2], beats: [0.5, 0.5, 1, 1], notes: [] };

const LONGEST = 7;

/**
 * The student's best motif, or else the start of a phrase, as long as it lies in one placement, takes at most two
 * bars and moves; or else a borrowed one.
 */
export function bestIdea(analysis: Analysis): Idea {
  const { meter } = analysis.chart;
  const barBeats = (meter.beats * 4) / meter.unit;
  const notesOf = stretchesOf(analysis);
  const motifs = [...analysis.motifs]
    .filter((motif) => motif.length >= 3)
    .sort((a, b) => b.weight - a.weight || b.occurrences.length - a.occurrences.length);
  for (const motif of motifs) {
    for (const occurrence of motif.occurrences) {
      const idea = ideaOf(notesOf(occurrence), barBeats);
      if (idea !== null) return idea;
    }
  }
  for (const phrase of analysis.phrases) {
    const placed = longestPlaced(notesOf(phrase));
    const idea = ideaOf(placed.slice(0, 5), barBeats);
    if (idea !== null) return idea;
  }
  return BORROWED;
}

/** The notes of the solo from the first to the last of a stretch, both included; none when it names notes of others. */
function stretchesOf(analysis: Analysis) {
  const solo = analysis.notes.filter((note) => note.solo);
  const place = new Map(solo.map((note, index) => [note.id, index]));
  return ({ firstNote, lastNote }: { readonly firstNote: string; readonly lastNote: string }) => {
    const first = place.get(firstNote);
    const last = place.get(lastNote);
    return first === undefined || last === undefined ? [] : solo.slice(first, last + 1);
  };
}

function ideaOf(all: readonly AccountNote[], barBeats: number): Idea | null {
  const notes = all.filter((note) => note.slide === null).slice(0, LONGEST);
  const [first] = notes;
  if (first === undefined || notes.length < 3 || first.placement === null || first.position === null)
    return null;
  if (
    notes.some((note) => note.placement !== first.placement || note.finger === null || note.position === null)
  ) {
    return null;
  }
  const fingers = notes.map((note) => note.finger!);
  if (new Set(fingers).size < 2) return null;
  const start = barBeats * Math.floor(first.position / barBeats);
  const onsets = notes.map((note) => onGrid(note.position! - start));
  const last = onsets[onsets.length - 1]!;
  const rising = onsets.every((onset, i) => i === 0 || onset > onsets[i - 1]!);
  if (!rising || last + 0.5 > 2 * barBeats) return null;
  const lastBeats = Math.max(0.5, Math.min(1.5, onGrid(notes[notes.length - 1]!.beats ?? 0.5)));
  return {
    fingers,
    onsets,
    beats: onsets.map((onset, i) => (i + 1 < onsets.length ? onsets[i + 1]! - onset : lastBeats)),
    notes: notes.map((note) => note.id),
  };
}

/** Eighths are what an exercise is written in; a triplet is read as its nearest eighth. */
function onGrid(beats: number): number {
  return Math.round(beats * 2) / 2;
}

function longestPlaced(notes: readonly AccountNote[]): readonly AccountNote[] {
  let best: readonly AccountNote[] = [];
  let start = 0;
  for (let i = 1; i <= notes.length; i++) {
    if (i < notes.length && notes[i]!.placement !== null && notes[i]!.placement === notes[start]!.placement)
      continue;
    if (i - start > best.length && notes[start]!.placement !== null) best = notes.slice(start, i);
    start = i;
  }
  return best;
}
