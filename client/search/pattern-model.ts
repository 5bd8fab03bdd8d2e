/** The pattern that is looked for, as it is being made: played, picked from a take, taken from the ideas, or written. */
import type { IdeaRow } from "../../server/contract/library.ts";
import type { AskedNote } from "../../server/contract/pattern.ts";
import type { MotifViewpoint } from "../../src/account.ts";
import type { Finger } from "../../src/take/index.ts";
import { count } from "../../src/words/index.ts";
import { patternWords, readPatternWords } from "../shell/ideas.ts";
import { printedPattern } from "../shell/printed-pattern.ts";

export type PatternWay = "play" | "picked" | "idea" | "write";

export interface PlayedNote {
  readonly pitch: number;
  /** Length in quarter-note beats. */
  readonly beats: number;
  /** Null until one is chosen. */
  readonly finger: Finger | null;
}

/** Notes of a take, and where they are. */
export interface PickedNotes {
  readonly notes: readonly AskedNote[];
  /** The notes as their account spells them. */
  readonly names: readonly string[];
  readonly words: string;
}

export interface PatternState {
  readonly way: PatternWay;
  readonly viewpoint: MotifViewpoint;
  readonly played: readonly PlayedNote[];
  /** The chord that played notes are degrees of. */
  readonly chord: string;
  /** The key of the piano that the computer's keys begin with, as a MIDI number. */
  readonly lowestKey: number;
  readonly picked: PickedNotes | null;
  /** Identifier of a kept idea; null where none is kept. */
  readonly idea: string | null;
  readonly written: string;
}

/** What a search asks for: symbols, notes, or notes whose degrees on a chord are still to be found. */
export type AskedPattern =
  | { readonly symbols: readonly (number | string)[] }
  | { readonly notes: readonly AskedNote[]; readonly over: string | null };

/** Semitones of the pattern that is written for a start: a third up and two steps on. */
const EXAMPLE = [3, 2, 1];
const MIDDLE_C = 60;
/** A note that was struck on a drawn key lasts an eighth, until another length is chosen. */
const STRUCK = 0.5;

export function firstPattern(asked: {
  readonly viewpoint: MotifViewpoint | null;
  /** As `patternWords` writes them; empty for none. */
  readonly symbols: string;
  readonly idea: IdeaRow | null;
  readonly picked: PickedNotes | null;
  readonly ideas: readonly IdeaRow[];
}): PatternState {
  const { idea, picked, symbols } = asked;
  const viewpoint = idea?.pattern.viewpoint ?? asked.viewpoint ?? "chromatic interval";
  return {
    way: picked ? "picked" : idea ? "idea" : symbols ? "write" : "play",
    viewpoint: picked ? (asked.viewpoint ?? viewpoint) : viewpoint,
    played: [],
    chord: "C7",
    lowestKey: MIDDLE_C,
    picked,
    idea: (idea ?? asked.ideas[0])?.id ?? null,
    written: symbols
      ? patternWords({ viewpoint, symbols: readPatternWords(symbols, viewpoint) })
      : patternWords({ viewpoint: "chromatic interval", symbols: EXAMPLE }),
  };
}

export function lookAt(state: PatternState, viewpoint: MotifViewpoint): PatternState {
  return { ...state, viewpoint };
}

/** An idea is looked for in the viewpoint that it was kept in. */
export function choosePatternWay(
  state: PatternState,
  way: PatternWay,
  ideas: readonly IdeaRow[],
): PatternState {
  const turned = { ...state, way };
  return way === "idea" && state.idea !== null ? chooseIdea(turned, state.idea, ideas) : turned;
}

export function chooseIdea(state: PatternState, id: string, ideas: readonly IdeaRow[]): PatternState {
  const viewpoint = ideaOf(id, ideas)?.pattern.viewpoint ?? state.viewpoint;
  return { ...state, idea: id, viewpoint };
}

export function strike(state: PatternState, pitch: number): PatternState {
  return { ...state, played: [...state.played, { pitch, beats: STRUCK, finger: null }] };
}

export function takeBackNote(state: PatternState): PatternState {
  return { ...state, played: state.played.slice(0, -1) };
}

export function clearPlayed(state: PatternState): PatternState {
  return { ...state, played: [] };
}

export function changePlayed(
  state: PatternState,
  index: number,
  change: Partial<Pick<PlayedNote, "beats" | "finger">>,
): PatternState {
  return { ...state, played: state.played.map((note, i) => (i === index ? { ...note, ...change } : note)) };
}

/** The finger of a played note: one after the other from the thumb, until another is chosen. */
export function fingerOf({ played }: PatternState, index: number): Finger {
  return played[index]!.finger ?? (Math.min(5, index + 1) as Finger);
}

export function withLengths({ viewpoint }: PatternState): boolean {
  return viewpoint === "rhythm" || viewpoint === "interval and rhythm";
}

/** Where each key that was struck stands in the pattern: "1", "2 4"; of more than two, the first. */
export function ordersOf({ played }: PatternState): ReadonlyMap<number, string> {
  const places = new Map<number, number[]>();
  for (const [i, { pitch }] of played.entries()) places.set(pitch, [...(places.get(pitch) ?? []), i + 1]);
  const words = (order: readonly number[]) => (order.join(" ").length > 3 ? `${order[0]}…` : order.join(" "));
  return new Map([...places].map(([pitch, order]) => [pitch, words(order)]));
}

/** "four notes: +2 +2 -1", of the chosen idea. */
export function ideaWords({ idea }: PatternState, ideas: readonly IdeaRow[]): string {
  const chosen = ideaOf(idea, ideas);
  return chosen === null
    ? "No idea is kept yet. Search for one, and keep it under a name."
    : `${count(chosen.pattern.notes, "note")}: ${printedPattern(chosen.pattern)}`;
}

/**
 * What a search takes.
 * @throws Error with words when there is nothing to look for
 */
export function askedPattern(state: PatternState, ideas: readonly IdeaRow[]): AskedPattern {
  switch (state.way) {
    case "play":
      if (state.played.length < 2) throw new Error("Play two notes or more, then search.");
      return { notes: askedNotes(state), over: state.viewpoint === "degree" ? state.chord : null };
    case "picked":
      return { notes: state.picked?.notes ?? [], over: null };
    case "idea": {
      const chosen = ideaOf(state.idea, ideas);
      if (chosen === null) throw new Error("No idea is kept yet. Play or write a pattern instead.");
      return { symbols: chosen.pattern.symbols };
    }
    case "write": {
      const symbols = readPatternWords(state.written, state.viewpoint);
      if (symbols.length === 0) throw new Error("Write a pattern, then search.");
      return { symbols };
    }
  }
}

/** Played notes one after the other, without rests. */
function askedNotes(state: PatternState): AskedNote[] {
  let position = 0;
  return state.played.map(({ pitch, beats, finger }, i) => {
    const at = position;
    position += beats;
    const played = state.viewpoint === "finger" ? fingerOf(state, i) : finger;
    return { pitch, position: at, degree: null, finger: played };
  });
}

function ideaOf(id: string | null, ideas: readonly IdeaRow[]): IdeaRow | null {
  return ideas.find((one) => one.id === id) ?? null;
}
