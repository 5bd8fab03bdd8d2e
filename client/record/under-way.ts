/** One recording from its start to its end, kept in the browser's store while it is played. */

import { localDate } from "../shell/words.ts";
import { type KeptRecording, type KeptRecordings, keeping, takeInHand } from "./kept-recordings.ts";
import type { RecordingSettings } from "./record-states.ts";
import { createRecording, type Recorded } from "./recording.ts";

export interface UnderWay {
  press(pitch: number, velocity: number, seconds: number): void;
  pedal(down: boolean, seconds: number): void;
  /** In free time: the next chord begins. */
  change(seconds: number): void;
  /** The last change was none. */
  takeBackChange(): void;
  /** Seconds of the changes so far. */
  changes(): readonly number[];
  /** Ends what a keyboard holds that was unplugged. */
  letGo(seconds: number): void;
  /** A piece of what the microphone hears. */
  readonly sound: (piece: Blob) => void;
  /** Writes what there is, now. */
  keep(): Promise<void>;
  /** Nothing is added from here on. */
  stopAt(seconds: number): void;
  /** Keeps the whole with what may be written until the end: names, and whether the sound is wanted. */
  finish(names: Pick<RecordingSettings, "player" | "title" | "keepSound">): Promise<void>;
  /** As it stands. */
  recording(): KeptRecording;
  /** Deletes it from the store. */
  discard(): Promise<void>;
  /** Lets other windows offer it. */
  letGoOf(): Promise<void>;
}

/** Two chords never begin at one moment: seconds between them at least. */
const APART = 0.01;

/**
 * @param now seconds since the start of the count-in
 * @param failed told when the browser cannot keep it
 */
export function beginUnderWay(
  store: KeptRecordings,
  settings: RecordingSettings,
  now: () => number,
  failed: (error: unknown) => void,
): UnderWay {
  const begun = new Date();
  const id = `${begun.getTime()}-${Math.random().toString(36).slice(2)}`;
  const recording = createRecording();
  let own = settings;
  let whole: (Recorded & { seconds: number }) | null = null;
  let changes: readonly number[] = [];
  // Nothing is kept of a recording in which nothing was played.
  let played = false;
  let parts = 0;
  let sounds: Promise<unknown> = Promise.resolve();
  const snapshot = (): KeptRecording => {
    const seconds = now();
    return {
      id,
      settings: own,
      startedAt: begun.getTime(),
      date: localDate(begun),
      refused: null,
      ...(changes.length > 0 ? { changes } : {}),
      ...(whole ?? { ...recording.soFar(seconds), seconds }),
    };
  };
  const writer = keeping(store, snapshot, failed);
  const keep = async () => {
    if (played) await writer.now();
  };
  const turn = (next: readonly number[]) => {
    changes = next;
    if (played) writer.changed();
  };
  const letGoOf = takeInHand(id);
  return {
    press(pitch, velocity, seconds) {
      recording.press(pitch, velocity, seconds);
      played ||= velocity > 0;
      if (played) writer.changed();
    },
    pedal(down, seconds) {
      recording.pedal(down, seconds);
      if (played) writer.changed();
    },
    change: (seconds) => turn([...changes, Math.max(0, seconds, (changes.at(-1) ?? -1) + APART)]),
    takeBackChange: () => turn(changes.slice(0, -1)),
    changes: () => changes,
    letGo(seconds) {
      recording.letGo(seconds);
      void keep();
    },
    sound(piece) {
      played = true;
      if (parts === 0) void writer.now();
      const part = parts++;
      sounds = sounds.then(() => store.putSound(id, part, piece)).catch(failed);
    },
    keep,
    stopAt(seconds) {
      whole = { ...recording.finish(seconds), seconds };
    },
    async finish(names) {
      own = { ...own, ...names };
      await sounds;
      await keep();
    },
    recording: snapshot,
    async discard() {
      await sounds;
      await keep();
      if (played) await store.remove(id).catch(failed);
      await letGoOf();
    },
    letGoOf,
  };
}
