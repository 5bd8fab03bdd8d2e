/** The line against its chords: the blue third, avoid notes, guide tones, outside and back. */
import type { AccountNote } from "../../account.ts";
import { type Facts, ids } from "../../findings/facts.ts";
import { resolves } from "../../findings/rules/harmonic-awareness/resolving-roles.ts";
import { type Reading, shareOf } from "../reading.ts";

const BLUE_THIRD: readonly (string | null)[] = ["b3", "#9"];

const isBlueThird = ({ role, degree }: AccountNote) => role === "blue" && BLUE_THIRD.includes(degree);

export function blueThirds({ account, solo }: Facts): Reading {
  if (account.chart.idiom !== "blues") return { untold: "the chart is no blues" };
  const notes = solo.filter(isBlueThird);
  return { value: notes.length, notes, open: [] };
}

/** A half step up, right after and without a rest; a slide is one of them. */
export function blueThirdToThird({ account, solo }: Facts): Reading {
  if (account.chart.idiom !== "blues") return { untold: "the chart is no blues" };
  const blue = solo.flatMap((note, i) => (isBlueThird(note) ? [{ note, next: solo[i + 1] }] : []));
  const goesOn = ({ note, next }: (typeof blue)[number]) =>
    next !== undefined &&
    next.pitch === note.pitch + 1 &&
    next.role === "third" &&
    next.phrase === note.phrase;
  return {
    value: blue.filter(goesOn).length,
    notes: blue.filter(goesOn).flatMap(({ note, next }) => [note, next!]),
    open: blue.filter((one) => !goesOn(one)).map(({ note }) => note),
  };
}

/** As much of a line as fills two or three bars of eighths. [practice] */
const LINE = { notes: 24, named: "notes" };

/** On a strong place or held for a beat, and not moved on by step. */
export function avoidLeaned({ solo }: Facts): Reading {
  const leans = (note: AccountNote) =>
    note.role === "avoid" && (note.strength >= 0.5 || (note.beats ?? 0) >= 1) && !resolves(note);
  const reading = shareOf(solo, leans, LINE);
  // What is to be heard is where the note was leaned on; the rest of the solo is the good of it.
  return "untold" in reading ? reading : { ...reading, notes: [], open: reading.notes };
}

/** A change counts where the line says something within its first beat. */
export function guideTonesAtChanges({ entries }: Facts): Reading {
  const met = entries.filter(({ after }) => after < 1).map(({ note }) => note);
  return shareOf(met, (note) => note.guideTone, { notes: 6, named: "changes" });
}

export function outsideNotes(facts: Facts): Reading {
  const notes = outsideOf(facts);
  return { value: notes.length, notes, open: [] };
}

export function outsideAndBack(facts: Facts): Reading {
  return shareOf(outsideOf(facts), (note) => note.target !== null || resolves(note), {
    notes: 4,
    named: "notes outside the scale",
  });
}

/** A run passes through everything: what it touches on its way is not outside playing. */
function outsideOf({ solo, runs }: Facts): AccountNote[] {
  const running = new Set(runs.flatMap(({ notes }) => ids(notes)));
  return solo.filter(({ role, id }) => role === "outside" && !running.has(id));
}
