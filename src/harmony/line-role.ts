/**
 * The line role: what a note does between the notes around it and the chord after it. One function a rule; `RULES`
 * holds them in order of precedence, and the first that fits names the note.
 *
 * Throughout: a *chord tone* is a root, third, fifth or seventh (or its stand-in) of the chord at that note's own
 * onset; a *step* is one or two semitones, a *leap* more; repeated notes count as one note, so that "the note
 * before" and "after" have another pitch; a breath (see `line.ts`) leaves a note without the one beyond it.
 */
import { chordTone, free, heldColour } from "./at-rest.ts";
import { anticipation, suspension } from "./at-the-change.ts";
import { appoggiatura, escapeTone, neighbour, passing } from "./by-step.ts";
import { approach, enclosure } from "./into-a-target.ts";
import type { JoinedLine } from "./joined-line.ts";
import type { Found } from "./line-motion.ts";
import type { LineRole } from "./roles.ts";

export interface LineRule {
  readonly role: LineRole;
  readonly fits: (line: JoinedLine, i: number) => Found | null;
}

/** The rules in order of precedence. What none of them fits is free. */
const RULES: readonly LineRule[] = [
  { role: "anticipation", fits: anticipation },
  { role: "suspension", fits: suspension },
  { role: "enclosure", fits: enclosure },
  { role: "approach", fits: approach },
  { role: "passing", fits: passing },
  { role: "neighbour", fits: neighbour },
  { role: "appoggiatura", fits: appoggiatura },
  { role: "escape", fits: escapeTone },
  { role: "chord tone", fits: chordTone },
  { role: "held colour", fits: heldColour },
];

/** True when a note has a role: when its rule fits, and none before it. Of the first rules few are asked. */
export function hasLineRole(line: JoinedLine, i: number, role: LineRole): boolean {
  const place = RULES.findIndex((rule) => rule.role === role);
  if (place < 0) return lineRoleOf(line, i).role === role;
  if (RULES[place]!.fits(line, i) === null) return false;
  for (let before = 0; before < place; before++) if (RULES[before]!.fits(line, i) !== null) return false;
  return true;
}

/** The line role of the `i`-th note of a line: the first rule that fits. */
export function lineRoleOf(line: JoinedLine, i: number): { readonly role: LineRole } & Found {
  for (const { role, fits } of RULES) {
    const found = fits(line, i);
    if (found !== null) return { role, ...found };
  }
  return { role: "free", ...free(line, i) };
}
