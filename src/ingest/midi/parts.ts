import type { Part } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import type { WarningCollector } from "../warning-collector.ts";
import { DRUMS, type MidiTrack } from "./midi-track.ts";
import type { StrikeColumns } from "./strikes.ts";
import { trackName } from "./texts.ts";

export interface MidiParts {
  readonly parts: readonly Part[];
  /** For each strike the index of its part. */
  readonly partOf: Uint32Array;
}

/** A part for each channel on which a track plays; a track that plays on one channel only is one part. */
export function partsOfTracks(tracks: readonly MidiTrack[], strikes: StrikeColumns): MidiParts {
  const parts: Part[] = [];
  const partOf = new Uint32Array(strikes.count);
  for (const track of tracks) {
    if (track.from === track.to) continue;
    const notes = new Uint32Array(16);
    for (let i = track.from; i < track.to; i++) notes[strikes.key[i]! >> 7]!++;
    const channels = [...notes.keys()].filter((channel) => notes[channel]! > 0);
    const several = channels.length > 1;
    const name = trackName(track) ?? `Track ${track.number}`;
    const index = new Uint32Array(16);
    for (const channel of channels) {
      index[channel] = parts.length;
      parts.push({
        id: several ? `t${track.number}c${channel + 1}` : `t${track.number}`,
        name: several ? `${name}, channel ${channel + 1}` : name,
        staves: 1,
        program: programAt(tracks, track, channel, firstTick(track, channel, strikes)),
        notes: notes[channel]!,
      });
    }
    // All strikes belong to part 0 until they are given another.
    if (parts.length === 1) continue;
    for (let i = track.from; i < track.to; i++) partOf[i] = index[strikes.key[i]! >> 7]!;
  }
  return { parts, partOf };
}

/** Says what was left out or repaired in the notes of the tracks. */
export function warnOfRepairs(tracks: readonly MidiTrack[], warnings: WarningCollector): void {
  for (const { number, drumNotes, repairs } of tracks) {
    const { strayNoteOffs, hanging, firstHanging, withoutLength, firstWithoutLength } = repairs;
    if (strayNoteOffs > 0) {
      warnings.add(
        "stray-note-off",
        `track ${number}`,
        (times) =>
          `${counted(times, "note-off")} without a note ${times === 1 ? "was" : "were"} passed over.`,
        strayNoteOffs,
      );
    }
    if (hanging > 0) {
      warnings.add(
        "hanging-note",
        `track ${number}, tick ${firstHanging}`,
        (times) =>
          `${counted(times, "note")} without a note-off ${times === 1 ? "was" : "were"} ended at the next strike of the key or at the end of the track.`,
        hanging,
      );
    }
    if (withoutLength > 0) {
      warnings.add(
        "note-without-length",
        `track ${number}, tick ${firstWithoutLength}`,
        (times) => `${counted(times, "note")} without length ${times === 1 ? "was" : "were"} given one tick.`,
        withoutLength,
      );
    }
    if (drumNotes > 0) {
      warnings.add(
        "drums-left-out",
        `track ${number}, channel ${DRUMS + 1}`,
        (times) => `${counted(times, "note")} of the drum channel ${times === 1 ? "was" : "were"} left out.`,
        drumNotes,
      );
    }
  }
}

function firstTick({ from, to }: MidiTrack, channel: number, { key, tick }: StrikeColumns): number {
  for (let i = from; i < to; i++) if (key[i]! >> 7 === channel) return tick[i]!;
  return 0;
}

/** The last program change on the channel up to the first note; one of the same track wins over another track's. */
function programAt(
  tracks: readonly MidiTrack[],
  own: MidiTrack,
  channel: number,
  tick: number,
): number | null {
  return lastProgram(own, channel, tick) ?? elsewhere(tracks, own, channel, tick);
}

function elsewhere(
  tracks: readonly MidiTrack[],
  own: MidiTrack,
  channel: number,
  tick: number,
): number | null {
  for (let i = tracks.length - 1; i >= 0; i--) {
    const program = tracks[i] === own ? null : lastProgram(tracks[i]!, channel, tick);
    if (program !== null) return program;
  }
  return null;
}

function lastProgram({ programs }: MidiTrack, channel: number, tick: number): number | null {
  const change = programs.findLast((one) => one.channel === channel && one.tick <= tick);
  return change?.program ?? null;
}
