import { median } from "d3-array";
import type { MeasuredLine } from "../../measured-line.ts";

/** Median pitch (MIDI number) of each chorus that has notes. */
export function heights({ solo, barsPlayed }: MeasuredLine): number[] {
  return barsPlayed.flatMap((_, i) => {
    const height = median(
      solo.filter(({ chorus }) => chorus === i + 1),
      ({ pitch }) => pitch,
    );
    return height === undefined ? [] : [height];
  });
}
