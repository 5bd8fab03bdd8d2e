/** How much of the keyboard is used, and whether the line moves through it. */
import { median } from "d3-array";
import type { AccountNote } from "../../account.ts";
import type { Facts } from "../../findings/facts.ts";
import type { Reading } from "../reading.ts";

export function range({ solo }: Facts): Reading {
  if (solo.length === 0) return { untold: "no note" };
  const pitches = solo.map(({ pitch }) => pitch);
  const [low, high] = [Math.min(...pitches), Math.max(...pitches)];
  const notes = solo.filter(({ pitch }) => pitch === low || pitch === high);
  return { value: high - low, notes, open: [] };
}

/** A part with fewer notes has no middle. [practice] */
const PART = 12;

/** Parts are the choruses; of a single chorus, its halves. */
export function registerChange({ account, solo }: Facts): Reading {
  const half = account.chart.bars.length / 2;
  const several = account.alignment.choruses > 1;
  const parts = new Map<number, AccountNote[]>();
  for (const note of solo) {
    const part = several ? note.chorus : note.bar <= half ? 0 : 1;
    parts.set(part, [...(parts.get(part) ?? []), note]);
  }
  const lying = [...parts.values()]
    .filter((notes) => notes.length >= PART)
    .map((notes) => ({ notes, middle: median(notes, ({ pitch }) => pitch)! }))
    .sort((a, b) => a.middle - b.middle);
  const [lowest, highest] = [lying[0], lying[lying.length - 1]];
  if (lowest === undefined || highest === undefined || lying.length < 2) {
    return { untold: `fewer than two parts of ${PART} notes` };
  }
  return {
    value: highest.middle - lowest.middle,
    notes: [...lowest.notes, ...highest.notes],
    open: [],
  };
}
