import { median } from "d3-array";
import type { MeasuredLine } from "../../measured-line.ts";

/** Median pitch (MIDI number) of each chorus that has notes. */
export function heights({ solo, barsPlayed }: MeasuredLine): number[] {
  const pitches = barsPlayed.map((): number[] => []);
  for (const { chorus, pitch } of solo) pitches[chorus - 1]?.push(pitch);
  return pitches.flatMap((played) => {
    const height = median(played);
    return height === undefined ? [] : [height];
  });
}
