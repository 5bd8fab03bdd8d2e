/** Inferred fingers beside printed ones, in scores that others fingered. */
import { parseChart } from "../../src/chart/index.ts";
import { PUBLISHED_WEIGHTS } from "../../src/hands/ergonomics.ts";
import { isPracticable } from "../../src/hands/finger-spans.ts";
import { cheapestFingering } from "../../src/hands/fingerings.ts";
import { BUILT_IN_SHAPES, explainHands, type HandNote } from "../../src/hands/index.ts";
import { mirrorPitch } from "../../src/hands/placements.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { Finger, Hand, Note, Part, Take } from "../../src/take/index.ts";
import { publishedOptions } from "./handbook-agreement.ts";

export interface PrintedAgreement {
  /** Printed notes with a finger that a single hand plays; a note that is played again in a repeat counts once. */
  readonly notes: number;
  /** Inferred finger equals the printed one, alternates and substitutions counted as printed. */
  readonly inferred: number;
  /** The finger that is printed most often for this hand in this score, given to every note. */
  readonly commonest: number;
  /** A simple model: the published rules on the hand's highest line (the left hand's lowest), as they stand. */
  readonly simple: number;
}

export type HandAgreement = Readonly<Record<Hand, PrintedAgreement>>;

/** General MIDI programs of keyboards (from 0): pianos and harpsichords, organs. Guitars print other fingers. */
const isKeyboard = ({ program }: Part) =>
  program === null || program <= 7 || (program >= 16 && program <= 20);

/** Parts of an organ on three staves: the third is played with the feet. */
const isPedal = (note: Note, take: Take) =>
  (note.printed?.staff ?? 1) > 2 && (take.parts.find(({ id }) => id === note.part)?.staves ?? 1) > 2;

/** Where this share of the printed pairs can be played by no hand at a keyboard, the numbers are no fingers of one. */
const NO_HAND = 0.5;

/**
 * True where the numbers printed at neighbouring notes of a hand are fingers that cannot reach from key to key
 * (Parncutt et al. 1997, MinPrac and MaxPrac) more often than not: string numbers, figures of a bass, another instrument.
 */
function isForAnotherInstrument(take: Take): boolean {
  const handOf = handsOfParts(take);
  let [joined, impossible] = [0, 0];
  for (const hand of ["right", "left"] as const) {
    const line = take.notes.filter((note) => handOf(note) === hand && !isPedal(note, take));
    for (let i = 1; i < line.length; i++) {
      const [before, note] = [line[i - 1]!, line[i]!];
      const [a, b] = [before, note].map(({ printed }) => printed?.fingering[0]?.finger);
      const apart = note.onset - before.onset;
      if (a === undefined || b === undefined || apart < 0.03 || apart > 0.5 || note.pitch === before.pitch)
        continue;
      const [from, to] = [before, note].map(({ pitch }) => (hand === "right" ? pitch : mirrorPitch(pitch)));
      joined++;
      if (a === b || !isPracticable(a, from!, b, to!)) impossible++;
    }
  }
  return joined >= 8 && impossible > NO_HAND * joined;
}

/** Notes of one keyboard part without their printed fingers, and what was printed. */
export interface PrintedPart {
  readonly notes: readonly HandNote[];
  /** Parallel to the notes; empty where nothing is printed, and where a printed note is played again. */
  readonly marks: readonly (readonly Finger[])[];
}

/** The keyboard parts of a take that have printed fingers. Empty where the fingers are another instrument's. */
export function printedParts(take: Take): PrintedPart[] {
  if (isForAnotherInstrument(take)) return [];
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const handOf = handsOfParts(take);
  return take.parts.filter(isKeyboard).flatMap((part) => {
    const indices = take.notes.flatMap((note, i) =>
      note.part === part.id && !isPedal(note, take) ? [i] : [],
    );
    const first = writtenOnce(take, indices);
    const notes = indices.map(
      (i): HandNote => asPlayed(take.notes[i]!, handOf(take.notes[i]!) ?? hands[i]!.hand),
    );
    const marks = indices.map((i, k) =>
      first[k] ? (take.notes[i]!.printed?.fingering ?? []).map(({ finger }) => finger) : [],
    );
    return marks.some((fingers) => fingers.length > 0) ? [{ notes, marks }] : [];
  });
}

/**
 * Takes the printed fingers away, infers them again as the product does where nothing is chosen (all shapes offered,
 * no chart), and compares. Each part and hand is fingered for itself. Null where nothing is printed for a keyboard.
 */
export function printedAgreement(
  take: Take,
  explain: typeof explainHands = explainHands,
): HandAgreement | null {
  const rows: Row[] = [];
  for (const { notes, marks } of printedParts(take)) {
    const chart = parseChart("key: C\n| N.C. |");
    const account = explain(notes, [], chart, { shapes: BUILT_IN_SHAPES, evidence: true });
    const simple = simpleFingers(notes);
    account.notes.forEach(({ finger }, i) => {
      if (marks[i]!.length === 0) return;
      rows.push({ hand: notes[i]!.hand, marks: marks[i]!, inferred: finger, simple: simple.get(i) ?? null });
    });
  }
  if (rows.length === 0) return null;
  return { right: counted(rows, "right"), left: counted(rows, "left") };
}

interface Row {
  readonly hand: Hand;
  readonly marks: readonly Finger[];
  readonly inferred: Finger | null;
  readonly simple: Finger | null;
}

function counted(all: readonly Row[], hand: Hand): PrintedAgreement {
  const rows = all.filter((row) => row.hand === hand);
  const counts = new Map<Finger, number>();
  for (const { marks } of rows) counts.set(marks[0]!, (counts.get(marks[0]!) ?? 0) + 1);
  const hits = (of: (row: Row) => Finger | null) =>
    rows.filter((row) => row.marks.some((finger) => finger === of(row))).length;
  return {
    notes: rows.length,
    inferred: hits(({ inferred }) => inferred),
    commonest: Math.max(0, ...counts.values()),
    simple: hits(({ simple }) => simple),
  };
}

/** The hand of a note by its staff, or where two keyboard parts of one staff stand above each other by its part. */
function handsOfParts(take: Take): (note: Note) => Hand | null {
  const staves = new Map(take.parts.map((part) => [part.id, part.staves]));
  const single = take.parts.filter((part) => isKeyboard(part) && part.staves === 1).map(({ id }) => id);
  return (note) => {
    if ((staves.get(note.part) ?? 1) > 1 && note.printed !== null) {
      return note.printed.staff === 1 ? "right" : "left";
    }
    return single.length === 2 ? (note.part === single[0] ? "right" : "left") : null;
  };
}

function asPlayed(note: Note, hand: Hand): HandNote {
  return {
    ...note,
    printed: note.printed === null ? null : { ...note.printed, fingering: [] },
    hand,
    solo: true,
    chorus: 1,
    bar: 1,
    beat: null,
    position: null,
    beats: null,
    timing: null,
    span: 0,
    degree: null,
  };
}

/**
 * True for the first playing of every printed note. A bar that is played again by a repeat or a jump is another bar of
 * the take with the number of the first.
 */
function writtenOnce(take: Take, indices: readonly number[]): boolean[] {
  const seen = new Set<string>();
  return indices.map((i) => {
    const { printed, tick, pitch } = take.notes[i]!;
    const bar = printed === null ? undefined : take.bars[printed.bar];
    if (printed === null || bar === undefined) return true;
    const key = [bar.number, tick - bar.tick, pitch, printed.staff, printed.voice, printed.grace].join(" ");
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Fingers of the outer line of each hand by the published rules, by index of the note. */
function simpleFingers(notes: readonly HandNote[]): Map<number, Finger> {
  const fingers = new Map<number, Finger>();
  for (const hand of ["right", "left"] as const) {
    const seen = ({ pitch }: HandNote) => (hand === "right" ? pitch : mirrorPitch(pitch));
    const line: number[] = [];
    notes.forEach((note, i) => {
      if (note.hand !== hand) return;
      const last = line[line.length - 1];
      if (last === undefined || note.onset - notes[last]!.onset > 0.025) line.push(i);
      else if (seen(note) > seen(notes[last]!)) line[line.length - 1] = i;
    });
    const found = cheapestFingering(
      line.map((i) => seen(notes[i]!)),
      publishedOptions(PUBLISHED_WEIGHTS),
    );
    line.forEach((i, k) => {
      if (found !== null) fingers.set(i, found.fingers[k]!);
    });
  }
  return fingers;
}
