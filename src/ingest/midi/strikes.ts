import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";

/** Channels times keys. */
const KEYS = 16 * 128;
const NONE = -1;
/**
 * A strike that still sounds has no end yet: its place holds `NONE`, or `AFTER` minus the index of the next strike of
 * its key, which was struck while it sounded.
 */
const AFTER = -2;
const NONE_HANG = { hanging: 0, firstHanging: 0 } as const;

/** Every struck note of a file, in flat columns, in the order of the file's tracks and events. */
export interface StrikeColumns {
  readonly count: number;
  /** Ticks: the note-on and the note-off; never equal. */
  readonly tick: Int32Array;
  readonly end: Int32Array;
  /** Channel times 128, plus pitch. */
  readonly key: Uint16Array;
  readonly velocity: Uint8Array;
}

/** What had to be repaired in one track, with the tick of the first case. */
export interface TrackRepairs {
  readonly strayNoteOffs: number;
  readonly hanging: number;
  readonly firstHanging: number;
  readonly withoutLength: number;
  readonly firstWithoutLength: number;
}

/** What is known of a damaged track. */
export interface TrackDamage {
  /** Ticks at which something was lost, rising. */
  readonly gaps: readonly number[];
  /** Ticks for which a note without an end is held at most. */
  readonly longest: number;
}

export const SOUND: TrackDamage = { gaps: [], longest: Number.POSITIVE_INFINITY };

/**
 * Pairs note-ons with note-offs, track by track. Of overlapping notes on one key the first struck is the first
 * released, as the order of events suggests; when a release is missing, this would make one note very long, so on
 * that key a new strike ends the one before, and a last note without an end is held to the end of the track.
 */
export class Strikes implements StrikeColumns {
  count = 0;
  tick: Int32Array;
  end: Int32Array;
  key: Uint16Array;
  velocity: Uint8Array;
  /** Of each key the first strike that still sounds, and behind it the last. */
  readonly #open = new Int32Array(KEYS).fill(NONE);
  readonly #last = new Int32Array(KEYS);
  #trackStart = 0;
  #sounding = 0;
  #strayNoteOffs = 0;
  #anyWithoutLength = false;

  /** @param expected Number of notes for which room is made at once. */
  constructor(expected: number) {
    const room = Math.min(LIMITS.notes, Math.max(16, expected));
    this.tick = new Int32Array(room);
    this.end = new Int32Array(room);
    this.key = new Uint16Array(room);
    this.velocity = new Uint8Array(room);
  }

  /** Throws a Problem when the file has more notes than the limits allow. */
  strike(tick: number, key: number, velocity: number): void {
    const index = this.count;
    if (index === this.tick.length) this.#grow();
    this.count = index + 1;
    this.tick[index] = tick;
    this.end[index] = NONE;
    this.key[index] = key;
    this.velocity[index] = velocity;
    if (this.#open[key] === NONE) this.#open[key] = index;
    else this.end[this.#last[key]!] = AFTER - index;
    this.#last[key] = index;
    this.#sounding++;
  }

  release(tick: number, key: number): void {
    const index = this.#open[key]!;
    if (index === NONE) {
      this.#strayNoteOffs++;
      return;
    }
    const follower = this.end[index]!;
    this.#open[key] = follower === NONE ? NONE : AFTER - follower;
    this.end[index] = tick;
    this.#anyWithoutLength ||= tick === this.tick[index];
    this.#sounding--;
  }

  /** "All notes off" on a channel. */
  releaseAll(tick: number, channel: number): void {
    for (let key = channel * 128; key < channel * 128 + 128; key++) {
      while (this.#open[key] !== NONE) this.release(tick, key);
    }
  }

  /** Forgets what was struck since the last track ended. */
  restartTrack(): void {
    this.count = this.#trackStart;
    this.#open.fill(NONE);
    this.#sounding = 0;
    this.#strayNoteOffs = 0;
    this.#anyWithoutLength = false;
  }

  /**
   * Closes what hangs at the end of a track and makes ready for the next one.
   *
   * @param damage What was lost of the track.
   */
  endTrack(endOfTrack: number, damage: TrackDamage = SOUND): TrackRepairs {
    const { hanging, firstHanging } = this.#sounding > 0 ? this.#closeHanging(endOfTrack, damage) : NONE_HANG;
    let [withoutLength, firstWithoutLength] = [0, 0];
    if (this.#anyWithoutLength || hanging > 0) {
      for (let index = this.#trackStart; index < this.count; index++) {
        const tick = this.tick[index]!;
        if (this.end[index]! > tick) continue;
        this.end[index] = tick + 1;
        if (withoutLength++ === 0) firstWithoutLength = tick;
      }
    }
    const strayNoteOffs = this.#strayNoteOffs;
    this.#trackStart = this.count;
    this.#sounding = 0;
    this.#strayNoteOffs = 0;
    this.#anyWithoutLength = false;
    return { strayNoteOffs, hanging, firstHanging, withoutLength, firstWithoutLength };
  }

  #closeHanging(
    endOfTrack: number,
    damage: TrackDamage,
  ): { readonly hanging: number; readonly firstHanging: number } {
    /** All strikes of each key that has one hanging. */
    const keys = new Map<number, number[]>();
    for (let key = 0; key < KEYS; key++) if (this.#open[key] !== NONE) keys.set(key, []);
    let firstHanging = Number.POSITIVE_INFINITY;
    for (let index = this.#trackStart; index < this.count; index++) {
      keys.get(this.key[index]!)?.push(index);
      if (this.end[index]! < 0) firstHanging = Math.min(firstHanging, this.tick[index]!);
    }
    for (const [key, strikes] of keys) {
      this.#closeKey(strikes, endOfTrack, damage);
      this.#open[key] = NONE;
    }
    return { hanging: this.#sounding, firstHanging };
  }

  /**
   * Pairs the strikes of a key anew: each release ends the last strike before it. What has none in a damaged track
   * ends where the damage is, and is not held for longer than such a note may be.
   */
  #closeKey(strikes: readonly number[], endOfTrack: number, { gaps, longest }: TrackDamage): void {
    const releases = strikes.map((index) => this.end[index]!).filter((end) => end >= 0);
    let next = 0;
    strikes.forEach((index, i) => {
      const restrike = this.tick[strikes[i + 1] ?? -1] ?? Number.POSITIVE_INFINITY;
      while (next < releases.length && releases[next]! < this.tick[index]!) next++;
      if (next < releases.length && releases[next]! <= restrike) this.end[index] = releases[next++]!;
      else {
        const gap = gaps.find((tick) => tick > this.tick[index]!) ?? Number.POSITIVE_INFINITY;
        this.end[index] = Math.min(restrike, gap, endOfTrack, this.tick[index]! + longest);
      }
    });
  }

  #grow(): void {
    if (this.count >= LIMITS.notes) {
      throw new Problem(
        "too-many-notes",
        `The file has more than ${LIMITS.notes} notes`,
        null,
        "Cut it into takes of a few minutes each.",
      );
    }
    const size = Math.min(LIMITS.notes, 2 * this.tick.length);
    this.tick = enlarged(this.tick, new Int32Array(size));
    this.end = enlarged(this.end, new Int32Array(size));
    this.key = enlarged(this.key, new Uint16Array(size));
    this.velocity = enlarged(this.velocity, new Uint8Array(size));
  }
}

function enlarged<T extends Int32Array | Uint16Array | Uint8Array>(from: T, to: T): T {
  to.set(from);
  return to;
}
