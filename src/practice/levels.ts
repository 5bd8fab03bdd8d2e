/**
 * How far a student has come, for a lesson that is prepared without a take: the tempo that its exercises lead to, the
 * idea that they move about, and by how many shapes the hand stands. [practice]
 */
import type { Idea } from "./idea.ts";

export const LEVEL_IDS = ["beginner", "intermediate", "advanced"] as const;

export interface Level {
  readonly id: (typeof LEVEL_IDS)[number];
  readonly name: string;
  /** Quarter notes a minute. */
  readonly tempo: number;
  /** A borrowed idea: fingers and rhythm, by the first four fingers, which every built-in shape has. */
  readonly idea: Idea;
}

export const LEVELS: readonly Level[] = [
  {
    id: "beginner",
    name: "Beginner: three notes on the beat",
    tempo: 80,
    idea: { fingers: [2, 3, 4], onsets: [0, 1, 2], beats: [1, 1, 1], notes: [] },
  },
  {
    id: "intermediate",
    name: "Intermediate: eighths, up, turn, home",
    tempo: 112,
    idea: { fingers: [2, 3, 4, 2], onsets: [0, 0.5, 1, 2], beats: [0.5, 0.5, 1, 1], notes: [] },
  },
  {
    id: "advanced",
    name: "Advanced: off the beat, with the thumb",
    tempo: 160,
    idea: {
      fingers: [1, 2, 4, 3, 2, 1],
      onsets: [0.5, 1, 1.5, 2, 2.5, 3.5],
      beats: [0.5, 0.5, 0.5, 0.5, 0.5, 0.5],
      notes: [],
    },
  },
];

/** The level under an id. */
export function levelOf(id: Level["id"]): Level {
  return LEVELS.find((level) => level.id === id)!;
}
