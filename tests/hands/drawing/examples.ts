/** What points are drawn by: the scores that others fingered, and the handbooks' scales and arpeggios. */
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { handEvents } from "../../../src/hands/events.ts";
import type { HandEvent } from "../../../src/hands/hand-event.ts";
import { mirrorPitch } from "../../../src/hands/placements.ts";
import { readTake } from "../../../src/ingest/index.ts";
import type { Finger, Hand, Take } from "../../../src/take/index.ts";
import { HANDBOOK_ROWS } from "../handbooks.ts";
import { printedParts } from "../printed-agreement.ts";
import { FIGURES } from "./figures.ts";
import { type FactSets, type LatticeStep, latticeOf } from "./lattice.ts";

export interface Example {
  /** Name of the music: what has one name is held out together. */
  readonly music: string;
  readonly weight: number;
  readonly lattice: readonly LatticeStep[];
}

export interface Score {
  readonly file: string;
  readonly take: Take;
  /** Name of the music; two editions of one piece have one name. */
  readonly music: string;
}

/** How much a note of a handbook counts: there are as many of them as of printed notes, and they tell less each. */
const HANDBOOKS = 0.65;

/** Moments on either side of a printed finger that it is drawn with: what lies farther hardly bears on it. */
const AROUND = 6;

/** The scores at these paths that have printed fingers of a keyboard, each with the name of its music. */
export function readScores(files: readonly string[]): Score[] {
  const found: { file: string; take: Take; music: string; runs: Set<string> }[] = [];
  for (const file of files) {
    const take = readTake(readFileSync(file), { name: basename(file) });
    const parts = printedParts(take);
    if (parts.length === 0) continue;
    const runs = new Set(parts.flatMap(({ notes }) => runsIn(notes.map(({ pitch }) => pitch))));
    const same = found.find((other) => shared(runs, other.runs) > SAME_MUSIC);
    found.push({ file, take, music: same?.music ?? basename(file), runs });
  }
  return found;
}

/** From this share of runs in common on, two scores are editions of one piece. */
const SAME_MUSIC = 0.5;
const RUN = 8;

function runsIn(pitches: readonly number[]): string[] {
  return pitches.slice(RUN).map((_, i) => pitches.slice(i, i + RUN).join(" "));
}

function shared(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  return [...a].filter((run) => b.has(run)).length / Math.max(1, Math.min(a.size, b.size));
}

export function examplesOf(scores: readonly Score[], sets: FactSets): Example[] {
  return scores.flatMap(({ take, music }) =>
    printedParts(take).flatMap(({ notes, marks }) =>
      (["right", "left"] as const).flatMap((hand) => {
        const indices = notes.flatMap((note, i) => (note.hand === hand ? [i] : []));
        const events = handEvents(notes, indices, hand, []);
        const known = events.map((event) =>
          event.notes.map((i) => (marks[i]!.length > 0 ? marks[i]! : null)),
        );
        return cutOut(latticeOf(events, known, sets, true)).map((lattice) => ({ music, weight: 1, lattice }));
      }),
    ),
  );
}

/** The stretches of a lattice around what is known. */
function cutOut(lattice: readonly LatticeStep[]): LatticeStep[][] {
  const near = lattice.map((_, i) => lattice.slice(Math.max(0, i - AROUND), i + AROUND + 1).some(isKnown));
  const stretches: LatticeStep[][] = [];
  lattice.forEach((step, i) => {
    if (!near[i]) return;
    const open = near[i - 1] ? stretches[stretches.length - 1] : undefined;
    if (open === undefined) stretches.push([{ ...step, tripleScale: 0 }]);
    // The second of a stretch has no step two before it.
    else open.push(open.length === 1 ? { ...step, tripleScale: 0 } : step);
  });
  return stretches;
}

const isKnown = (step: LatticeStep) => step.isKnown;

/** A moment of a handbook's example. */
function moment(hand: Hand, keys: readonly number[], i: number): HandEvent {
  return {
    hand,
    notes: keys.map((_, n) => n),
    keys,
    printed: keys.map(() => null),
    span: 0,
    comingSpan: 0,
    chorus: 1,
    ease: i === 0 ? 1 : 0,
    interval: 0.2,
    held: [],
    slides: keys.map(() => -1),
  };
}

/** Every row two octaves up and down again, by either handbook's fingers, none of it known by heart; and figures. */
export function handbookExamples(sets: FactSets): Example[] {
  const rows = HANDBOOK_ROWS.map((row): Example => {
    const seen = row.hand === "right" ? row.keys : row.keys.map(mirrorPitch);
    const there = <T>(up: readonly T[]) => [...up, ...[...up].reverse().slice(1)];
    const [a, b] = [row.a, row.b].map((fingers) => there([...fingers].map(Number)) as Finger[]);
    const events = there(seen).map((key, i) => moment(row.hand, [key], i));
    const known = events.map((_, i) => [[a![i]!, b![i]!]]);
    return { music: row.name, weight: HANDBOOKS, lattice: latticeOf(events, known, sets, false) };
  });
  const figures = FIGURES.map(({ name, hand, moments }): Example => {
    const events = moments.map(({ keys }, i) => moment(hand, keys, i));
    const known = moments.map(({ fingers }) => fingers.map((finger) => [finger]));
    return { music: name, weight: 1, lattice: latticeOf(events, known, sets, false) };
  });
  return [...rows, ...figures];
}
