import type { PlayedBar } from "../../chart/play-order.ts";
import { counted } from "../../words/index.ts";
import type { WarningCollector } from "../warning-collector.ts";
import type { GraceKind } from "./bar-content.ts";
import type { TimedBar, TimedNote } from "./bar-timeline.ts";

/** A note as it is played: ties joined, repeats played out, times in ticks from the start. */
export interface PlayedNote {
  readonly written: TimedNote;
  /** Index of the played bar in which it starts. */
  readonly bar: number;
  readonly time: number;
  readonly tick: number;
  ticks: number;
  readonly grace: GraceKind | null;
}

/**
 * Plays the bars in order and joins tied notes: a note with a tie to it lengthens the note of the same part and
 * pitch that ends where it starts, also over a repeat or into an ending. Where there is none, it sounds anew. A tie
 * whose second note does not say so is joined all the same when that note follows at once in its voice.
 */
export function playNotes(
  bars: readonly TimedBar[],
  order: readonly PlayedBar[],
  starts: readonly number[],
  warnings: WarningCollector,
): PlayedNote[] {
  const played: PlayedNote[] = [];
  /** Notes that wait for the rest of their tie. */
  const open = new Map<string, PlayedNote[]>();
  order.forEach(({ bar, time }, index) => {
    const timed = bars[bar]!;
    for (const written of inOrder(timed.notes)) {
      const { sound } = written;
      if (sound.timeOnly !== null && !sound.timeOnly.includes(time)) continue;
      const tick = starts[index]! + written.tick;
      const key = `${written.part} ${sound.pitch}`;
      const ready = open.get(key)?.filter((note) => note.tick + note.ticks >= tick) ?? [];
      if (written.grace === null) {
        const match = bestMatch(ready, written.voice, tick, sound.tieStop);
        if (match !== undefined) {
          if (!sound.tieStop) {
            warnings.add(
              "tie-without-end",
              `part ${written.part}, bar ${timed.number}`,
              (times) =>
                `${counted(times, "tie")} that ${times === 1 ? "has" : "have"} a beginning only ${times === 1 ? "was" : "were"} joined to the next note of the same pitch.`,
            );
          }
          match.ticks += written.ticks;
          keep(open, key, sound.tieStart ? ready : ready.filter((note) => note !== match));
          continue;
        }
      }
      if (written.grace === null && sound.tieStop) {
        warnings.add(
          "tie-from-nowhere",
          `part ${written.part}, bar ${timed.number}`,
          (times) =>
            `${counted(times, "tie")} to a note before ${times === 1 ? "has" : "have"} none to join; the note sounds anew.`,
        );
      }
      const note: PlayedNote = {
        written,
        bar: index,
        time,
        tick,
        ticks: written.ticks,
        grace: written.grace,
      };
      played.push(note);
      keep(open, key, sound.tieStart ? [...ready, note] : ready);
    }
  });
  return played;
}

/** Bars are timed voice by voice; ties inside a bar need the order of time. */
function inOrder(notes: readonly TimedNote[]): TimedNote[] {
  return [...notes].sort((a, b) => a.tick - b.tick || graceFirst(a) - graceFirst(b));
}

function graceFirst(note: TimedNote): number {
  return note.grace === null ? 1 : 0;
}

/**
 * The open tie that a note continues: one of its own voice first; another voice's only when the note says itself
 * that it continues one.
 */
function bestMatch(
  ready: readonly PlayedNote[],
  voice: string,
  tick: number,
  anyVoice: boolean,
): PlayedNote | undefined {
  const ending = ready.filter((note) => note.tick + note.ticks === tick);
  return ending.find((note) => note.written.voice === voice) ?? (anyVoice ? ending[0] : undefined);
}

function keep(open: Map<string, PlayedNote[]>, key: string, notes: PlayedNote[]): void {
  if (notes.length > 0) open.set(key, notes);
  else open.delete(key);
}
