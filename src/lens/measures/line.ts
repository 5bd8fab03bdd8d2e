/** How the line reaches chord tones. */
import type { Facts } from "../../findings/facts.ts";
import { type Reading, shareOf } from "../reading.ts";

export function approaches({ solo }: Facts): Reading {
  const reading = shareOf(solo, ({ lineRole }) => lineRole === "approach", { notes: 24, named: "notes" });
  // Every other note is not a place where one was missed.
  return "untold" in reading ? reading : { ...reading, open: [] };
}

export function enclosures({ solo }: Facts): Reading {
  const notes = solo.filter(({ lineRole }) => lineRole === "enclosure");
  return { value: new Set(notes.map(({ target }) => target)).size, notes, open: [] };
}
