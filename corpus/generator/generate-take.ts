import { composeComping } from "./comping.ts";
import { harmonyOf } from "./harmony.ts";
import { midiFile } from "./midi-file.ts";
import { musicXmlFile } from "./musicxml-file.ts";
import { perform } from "./performance.ts";
import { randomFrom } from "./random.ts";
import { composeSolo } from "./solo.ts";
import type { TakeSpec } from "./spec.ts";
import { type Truth, truthOf } from "./truth.ts";

export interface GeneratedTake {
  readonly format: TakeSpec["format"];
  readonly bytes: Uint8Array;
  readonly truth: Truth;
}

/**
 * One take, played through hand shapes as a person would, with all that is known of it. The same seed and spec give
 * the same bytes on every machine.
 *
 * @example generateTake(7, { title: "Demo", chart: formChart("blues-quick-change", "F"), choruses: 2, format: "midi",
 *   manner: STRONG, time: STEADY_TIME, comping: { style: "shells", layout: "two tracks" }, pickup: 0, annotated: true })
 */
export function generateTake(seed: number, spec: TakeSpec): GeneratedTake {
  const random = randomFrom(seed);
  const harmony = harmonyOf(spec.chart);
  const { notes, motif } = composeSolo(spec, harmony, random);
  const comping = composeComping(spec.comping, harmony, spec.choruses, random);
  if (spec.format === "musicxml") {
    const text = musicXmlFile(spec, harmony, notes, comping);
    const truth = truthOf(spec, harmony, notes, comping, motif, null);
    return { format: "musicxml", bytes: new TextEncoder().encode(text), truth };
  }
  const bars = harmony.bars * spec.choruses;
  const performance = perform(spec, notes, comping, bars, leadSeconds(spec), random);
  const truth = truthOf(spec, harmony, notes, comping, motif, performance);
  return { format: "midi", bytes: midiFile(spec, performance), truth };
}

/** To a click the first bar line stands on a bar line of the file; without one the recorder was started before. */
function leadSeconds(spec: TakeSpec): number {
  if (spec.time.kind !== "click") return 1.37;
  return spec.pickup > 0 ? 240 / spec.time.tempo : 0.0;
}
