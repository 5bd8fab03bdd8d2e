import type { AccountNote } from "../../../account.ts";
import type { MeasuredLine } from "../../measured-line.ts";

/** Largest step in semitones; what is wider is a skip. */
const STEP = 2;

/** Moves from note to note inside the phrases: how many, and the notes that are reached by step and by skip. */
export function movesIn({ phrases }: MeasuredLine): {
  all: number;
  steps: AccountNote[];
  skips: AccountNote[];
} {
  const steps: AccountNote[] = [];
  const skips: AccountNote[] = [];
  let all = 0;
  for (const { notes } of phrases) {
    for (let i = 1; i < notes.length; i++) {
      const size = Math.abs(notes[i]!.pitch - notes[i - 1]!.pitch);
      all++;
      if (size > STEP) skips.push(notes[i]!);
      else if (size > 0) steps.push(notes[i]!);
    }
  }
  return { all, steps, skips };
}

export function shareOfSteps(line: MeasuredLine): number | null {
  const { all, steps } = movesIn(line);
  return all === 0 ? null : steps.length / all;
}

export function shareOfSkips(line: MeasuredLine): number | null {
  const { all, skips } = movesIn(line);
  return all === 0 ? null : skips.length / all;
}
