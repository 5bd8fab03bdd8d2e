import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";
import type { PedalChange } from "../pedal.ts";
import type { Strikes, TrackDamage, TrackRepairs } from "./strikes.ts";
import type { TrackEnd, TrackListener } from "./walk-track.ts";

/** The drum channel of General MIDI (channel 10), counted from 0. */
export const DRUMS = 9;

/** Types of meta events (SMF 1.0, "Meta-Events"). */
export const META = {
  text: 0x01,
  copyright: 0x02,
  trackName: 0x03,
  instrumentName: 0x04,
  lyric: 0x05,
  marker: 0x06,
  cue: 0x07,
  tempo: 0x51,
  meter: 0x58,
  key: 0x59,
} as const;

export interface MetaEvent {
  readonly tick: number;
  readonly type: number;
  readonly data: Uint8Array;
}

/** One track as it was read; its notes are the strikes from `from` up to `to`. */
export interface MidiTrack {
  /** From 1, in the order of the file. */
  readonly number: number;
  /** Tick of its last event. */
  readonly end: number;
  readonly from: number;
  readonly to: number;
  readonly drumNotes: number;
  readonly repairs: TrackRepairs;
  /** Those of `META`, in order. */
  readonly metas: readonly MetaEvent[];
  readonly programs: readonly ProgramChange[];
  readonly pedal: readonly PedalChange[];
}

export interface ProgramChange {
  readonly tick: number;
  readonly channel: number;
  readonly program: number;
}

const SUSTAIN = 64;
/** From this value on the pedal is down (MIDI 1.0, controllers 64-69). */
const DOWN = 64;
/** "Reset all controllers", which lifts the pedal. */
const RESET = 121;
/** "All sound off" and "all notes off"; omni and mono mode messages mean the same. */
const ALL_SOUND_OFF = 120;
const ALL_NOTES_OFF = 123;

/** Name under which a channel's pedal is known. */
export const CHANNEL_NAMES: readonly string[] = Array.from({ length: 16 }, (_, channel) => String(channel));

const KEPT: ReadonlySet<number> = new Set(Object.values(META));

/** Gathers what the take needs of one track while it is walked. */
export class TrackCollector implements TrackListener {
  readonly #file: Uint8Array;
  readonly #strikes: Strikes;
  readonly #from: number;
  readonly #metas: MetaEvent[] = [];
  readonly #programs: ProgramChange[] = [];
  readonly #pedal: PedalChange[] = [];
  #drumNotes = 0;

  constructor(file: Uint8Array, strikes: Strikes) {
    this.#file = file;
    this.#strikes = strikes;
    this.#from = strikes.count;
  }

  noteOn(tick: number, channel: number, pitch: number, velocity: number): void {
    if (channel === DRUMS) this.#drumNotes++;
    else this.#strikes.strike(tick, channel * 128 + pitch, velocity);
  }

  noteOff(tick: number, channel: number, pitch: number): void {
    if (channel !== DRUMS) this.#strikes.release(tick, channel * 128 + pitch);
  }

  controller(tick: number, channel: number, controller: number, value: number): void {
    if (channel === DRUMS) return;
    if (controller === SUSTAIN)
      this.#pedal.push({ tick, source: CHANNEL_NAMES[channel]!, down: value >= DOWN });
    else if (controller === RESET) this.#pedal.push({ tick, source: CHANNEL_NAMES[channel]!, down: false });
    else if (controller === ALL_SOUND_OFF || controller >= ALL_NOTES_OFF) {
      this.#strikes.releaseAll(tick, channel);
    }
  }

  program(tick: number, channel: number, program: number): void {
    this.#programs.push({ tick, channel, program });
  }

  meta(tick: number, type: number, from: number, to: number): void {
    if (!KEPT.has(type)) return;
    if (this.#metas.length >= LIMITS.signs) {
      throw new Problem(
        "too-many-signs",
        `A track has more than ${LIMITS.signs} texts and marks`,
        null,
        "Cut it into takes of a few minutes each.",
      );
    }
    this.#metas.push({ tick, type, data: this.#file.subarray(from, to) });
  }

  /** Forgets what it was told: the track is told again. */
  restart(): void {
    this.#strikes.restartTrack();
    this.#metas.length = 0;
    this.#programs.length = 0;
    this.#pedal.length = 0;
    this.#drumNotes = 0;
  }

  /** The whole track; to be called once, when it has been walked. */
  finish(number: number, { tick }: TrackEnd, damage: TrackDamage): MidiTrack {
    return {
      number,
      end: tick,
      repairs: this.#strikes.endTrack(tick, damage),
      from: this.#from,
      to: this.#strikes.count,
      drumNotes: this.#drumNotes,
      metas: this.#metas,
      programs: this.#programs,
      pedal: this.#pedal,
    };
  }
}
