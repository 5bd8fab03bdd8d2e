import type { Rule } from "../../rule.ts";
import { halfOfTheNotes } from "./half-of-the-notes.ts";
import { ideaInAnotherKey } from "./idea-in-another-key.ts";
import { lastPhraseFirst } from "./last-phrase-first.ts";

/** What anybody can do next; said only when a take leaves little else to say, hence their low importance. */
export const NEXT_STEPS: readonly Rule[] = [ideaInAnotherKey, halfOfTheNotes, lastPhraseFirst];
