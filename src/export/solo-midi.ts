/** The solo alone as a MIDI file, in performed time. */
import type { Analysis } from "../account.ts";
import {
  META,
  metaBytes,
  midiFileBytes,
  TICKS_PER_QUARTER,
  type TimedBytes,
  tempoBytes,
  textBytes,
} from "./midi-bytes.ts";

/**
 * A MIDI file (format 1) of the solo notes, as they were played; the tempo is the median one, so that bar lines come
 * near, and 120 in rubato.
 */
export function soloMidi(analysis: Analysis): Uint8Array {
  const microseconds = Math.round(60_000_000 / (analysis.alignment.tempo?.median ?? 120));
  const { beats, unit } = analysis.chart.meter;
  // By the tempo that the file states, not by the median itself: so seconds stay what they are.
  const tickAt = (seconds: number) =>
    Math.max(0, Math.round((seconds * 1_000_000 * TICKS_PER_QUARTER) / microseconds));
  const notes = analysis.notes.filter((note) => note.solo);
  return midiFileBytes(
    [
      [
        { tick: 0, order: 1, bytes: tempoBytes(microseconds) },
        { tick: 0, order: 1, bytes: metaBytes(META.meter, [beats, Math.log2(unit), 24, 8]) },
      ],
      [
        { tick: 0, order: 1, bytes: textBytes(META.name, "Solo") },
        ...notes.flatMap(({ pitch, onset, duration, velocity }): TimedBytes[] => {
          const start = tickAt(onset);
          const end = Math.max(start + 1, tickAt(onset + duration));
          return [
            { tick: start, order: 2, bytes: [0x90, pitch, velocity] },
            { tick: end, order: 0, bytes: [0x80, pitch, 64] },
          ];
        }),
      ],
    ],
    TICKS_PER_QUARTER,
  );
}
