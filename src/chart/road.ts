/** The signs that tell in which order written bars are played. A score and a typed chart have the same ones. */

export type WrittenSign = "segno" | "coda" | "to coda" | "da capo" | "dal segno" | "fine";

/** The signs of one bar. Labels are "" where the sign has none. */
export interface RoadMarks {
  readonly repeatStart: boolean;
  /** Number of times in all that the section is played; 0 when no repeat ends here. */
  readonly repeatEnd: number;
  /** True when the repeat is also played after D.C. or D.S. */
  readonly repeatAfterJump: boolean;
  /** Passes for which the bracket that starts here is played; empty when none starts. */
  readonly endingStart: readonly number[];
  readonly endingStop: boolean;
  readonly segno: string | null;
  readonly coda: string | null;
  readonly toCoda: string | null;
  readonly daCapo: boolean;
  readonly dalSegno: string | null;
  readonly fine: boolean;
  /** "D.C. al 2nd ending": the piece ends behind the ending for this pass; null where nothing is said. */
  readonly toEnding: number | null;
  /** "D.C. with repeats": repeats are taken again after the jump. */
  readonly withRepeats: boolean;
  /** "3x" in words somewhere in the bar; null where nothing is said. */
  readonly times: number | null;
  /** The same signs where only words or symbols say so, used when nothing states a jump for players. */
  readonly written: readonly WrittenSign[];
}

/** A bar's signs while they are gathered. */
export type RoadDraft = { -readonly [Name in keyof RoadMarks]: RoadMarks[Name] } & { written: WrittenSign[] };

export function emptyRoad(): RoadDraft {
  return {
    repeatStart: false,
    repeatEnd: 0,
    repeatAfterJump: false,
    endingStart: [],
    endingStop: false,
    segno: null,
    coda: null,
    toCoda: null,
    daCapo: false,
    dalSegno: null,
    fine: false,
    toEnding: null,
    withRepeats: false,
    times: null,
    written: [],
  };
}

/** "1, 2", "1.2." and "1-3" as lists of passes, rising; the first pass where no number can be read. */
export function endingPasses(text: string): number[] {
  const passes = new Set<number>();
  for (const piece of text.replace(/\.?\s*[-–]\s*/g, "-").split(/[,\s.+&/]+/)) {
    const range = /^(\d{1,2})(?:-(\d{1,2}))?$/.exec(piece);
    if (range === null) continue;
    const last = Number(range[2] ?? range[1]);
    for (let pass = Number(range[1]); pass <= last; pass++) passes.add(pass);
  }
  return passes.size > 0 ? [...passes].sort((a, b) => a - b) : [1];
}

/** Something about the order that was understood rather than read, at a written bar, from 0. */
export interface RoadNotice {
  readonly code: string;
  readonly bar: number;
  readonly message: string;
}
