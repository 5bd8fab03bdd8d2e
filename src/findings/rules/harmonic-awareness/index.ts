import type { Rule } from "../../rule.ts";
import { anticipationsUsed } from "./anticipations-used.ts";
import { approachesLand } from "./approaches-land.ts";
import { avoidNotesLeanedOn } from "./avoid-notes-leaned-on.ts";
import { blueNotesSpeak } from "./blue-notes-speak.ts";
import { bluesWithoutBlueNotes } from "./blues-without-blue-notes.ts";
import { changesPassedBy } from "./changes-passed-by.ts";
import { coloursHeld } from "./colours-held.ts";
import { enclosuresUsed } from "./enclosures-used.ts";
import { guideTonesMeetChanges } from "./guide-tones-meet-changes.ts";
import { outsideNotesLeftHanging } from "./outside-notes-left-hanging.ts";
import { outsideNotesResolved } from "./outside-notes-resolved.ts";
import { rootsTooSafe } from "./roots-too-safe.ts";
import { thirdOfAChordUnplayed } from "./third-of-a-chord-unplayed.ts";

/** What is said of harmonic awareness. */
export const HARMONIC_AWARENESS: readonly Rule[] = [
  guideTonesMeetChanges,
  changesPassedBy,
  thirdOfAChordUnplayed,
  avoidNotesLeanedOn,
  outsideNotesResolved,
  outsideNotesLeftHanging,
  enclosuresUsed,
  approachesLand,
  anticipationsUsed,
  blueNotesSpeak,
  bluesWithoutBlueNotes,
  rootsTooSafe,
  coloursHeld,
];
