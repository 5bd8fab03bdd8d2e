/** How the class plays: what takes have in common, and how a beginner's weeks go by. */
import type { ClassTake } from "./class.ts";
import { type CompingSpec, type Manner, STEADY_TIME, STRONG, type TimeSpec } from "./generator/spec.ts";

const TWO_TRACKS: CompingSpec = { style: "shells", layout: "two tracks" };
export const ONE_TRACK: CompingSpec = { style: "guide tones", layout: "one track" };

export const take = (part: {
  choruses: number;
  manner?: Partial<Manner>;
  time?: Partial<TimeSpec>;
  comping?: CompingSpec;
  format?: "midi" | "musicxml";
  pickup?: number;
  annotated?: boolean;
}): ClassTake["spec"] => ({
  choruses: part.choruses,
  format: part.format ?? "midi",
  manner: { ...STRONG, ...part.manner },
  time: { ...STEADY_TIME, ...part.time },
  comping: part.comping ?? TWO_TRACKS,
  pickup: part.pickup ?? 0,
  annotated: part.annotated ?? true,
});

/** Tilda before she was told to breathe. */
export const FIRST_WEEKS: Partial<Manner> = {
  plan: "stream",
  places: "root",
  answers: 0,
  motif: 0,
  slides: 0,
  guide: 0,
  enclosures: 0,
  entries: [0],
  centre: 67,
  climb: 0,
  grows: false,
};

export const MIDWAY: Partial<Manner> = {
  plan: "talk",
  places: "all",
  silence: 0.1,
  answers: 0.3,
  motif: 0.25,
  slides: 0.2,
  guide: 0.25,
  enclosures: 0,
  entries: [0, 0, 0.5],
  centre: 67,
  climb: 2,
  grows: false,
};
