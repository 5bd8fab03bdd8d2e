/** All exercises of a lesson one after the other: as one score, and as one MIDI file to play along with. */
import { playMidi } from "../export/play-midi.ts";
import type { ScoreModel } from "../export/score-model.ts";
import type { Exercise } from "./exercise.ts";
import { exerciseBeats, exerciseTracks, type PlayAlong } from "./exercise-midi.ts";
import { exerciseScore } from "./exercise-score.ts";

/**
 * One score of at least one exercise: each begins a line under its title, with its own key, meter and tempo, and ends
 * with a final bar line. Bars are numbered through. A score swings where all of its exercises do.
 */
export function lessonScore(title: string, exercises: readonly Exercise[]): ScoreModel {
  const parts = exercises.map(exerciseScore);
  const starts: number[] = [];
  let tick = 0;
  for (const { bars } of parts) {
    starts.push(tick);
    tick += bars.reduce((sum, bar) => sum + bar.ticks, 0);
  }
  const moved = <Mark extends { readonly tick: number }>(marksOf: (part: ScoreModel) => readonly Mark[]) =>
    parts.flatMap((part, i) => marksOf(part).map((mark) => ({ ...mark, tick: mark.tick + starts[i]! })));
  const bars = parts.flatMap((part, i) =>
    part.bars.map((bar, k) =>
      k > 0 ? bar : { ...bar, newLine: i > 0, heading: `${i + 1} ${exercises[i]!.title}` },
    ),
  );
  return {
    ...parts[0]!,
    title,
    meters: moved(({ meters }) => meters),
    keys: moved(({ keys }) => keys),
    tempos: moved(({ tempos }) => tempos),
    swing: parts.every(({ swing }) => swing !== null) ? parts[0]!.swing : null,
    texts: moved(({ texts }) => texts),
    bars: bars.map((bar, i) => ({ ...bar, number: String(i + 1) })),
  };
}

/** A MIDI file of format 1 of at least one exercise, at one tempo; each exercise is counted in. */
export function lessonMidi(title: string, exercises: readonly Exercise[], play: PlayAlong): Uint8Array {
  let at = 0;
  const tracks = exercises.flatMap((exercise) => {
    const start = at;
    at += exerciseBeats(exercise, play);
    return exerciseTracks(exercise, play).map((track) => ({
      ...track,
      notes: track.notes.map((note) => ({ ...note, at: note.at + start })),
    }));
  });
  const names = [...new Set(tracks.map(({ name }) => name))];
  return playMidi({
    title,
    tempo: play.tempo,
    meter: exercises[0]!.meter,
    tracks: names.map((name) => {
      const same = tracks.filter((track) => track.name === name);
      return { ...same[0]!, notes: same.flatMap(({ notes }) => notes) };
    }),
  });
}
