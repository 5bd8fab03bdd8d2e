/** When a take's notes sound: as they were played, or straightened onto the places that the account gives them. */
import type { AccountNote } from "../../src/account.ts";
import type { AccountIndex } from "../shell/account-index.ts";

/** "played" keeps each onset; "even" puts notes on their beats at one steady tempo, swung eighths as even ones. */
export type Timing = "played" | "even";

export interface Clock {
  /** Seconds of the playing for a performed second of the take. */
  at(performed: number): number;
  /** Seconds of the playing at which a note sounds, and for how long. */
  note(note: AccountNote): { readonly at: number; readonly duration: number };
}

const AS_PLAYED: Clock = {
  at: (performed) => performed,
  note: ({ onset, duration }) => ({ at: onset, duration }),
};

/** Without a beat (rubato) there are no places to move a note to, and it stays as it was played. */
export function clockOf(index: AccountIndex, timing: Timing): Clock {
  const { bars, tempo } = index.analysis.alignment;
  if (timing === "played" || tempo === null || bars.length === 0) return AS_PLAYED;
  const quarter = 60 / tempo.median;
  const length = index.barQuarters * quarter;
  const start = bars[0]!.start;
  const order = new Map(bars.map(({ chorus, bar }, i) => [`${chorus}.${bar}`, i]));
  const at = (performed: number) => {
    const i = Math.max(
      0,
      bars.findLastIndex((bar) => bar.start <= performed),
    );
    const bar = bars[i]!;
    return start + (i + (performed - bar.start) / (bar.end - bar.start)) * length;
  };
  const beat = (quarter * 4) / index.analysis.chart.meter.unit;
  return {
    at,
    note(note) {
      const i = order.get(`${note.chorus}.${note.bar}`);
      const placed =
        i === undefined || note.beat === null ? null : start + i * length + (note.beat - 1) * beat;
      return {
        at: placed ?? at(note.onset),
        duration: note.beats === null ? note.duration : note.beats * quarter,
      };
    },
  };
}
