import type { Rule } from "../../rule.ts";
import { halfOfTheNotes } from "./half-of-the-notes.ts";

/** What can be done next; said only when a take leaves little else to say, hence its low importance. */
export const NEXT_STEPS: readonly Rule[] = [halfOfTheNotes];
