/** Plays a line of notes and clicks that is no part of a take: an exercise. One at a time. */
import { click } from "./player.ts";
import { type Stage, soundStage } from "./stage.ts";

export interface SoundLine {
  readonly notes: readonly {
    readonly pitch: number;
    readonly velocity: number;
    /** Seconds from the start. */
    readonly onset: number;
    readonly duration: number;
  }[];
  readonly clicks: readonly { readonly onset: number; readonly pitch: number }[];
  readonly seconds: number;
}

let stop: () => void = () => {};

/** Stops what sounds; whoever played it is told as at its end. */
export const stopLine = (): void => stop();

/**
 * Plays the line, and again for as long as `again` says; resolves at the end or when it is stopped.
 *
 * @param make the line as it is wanted now, asked for anew at each round
 * @param begins told, at each round, when it begins: seconds of the sound's clock
 */
export async function playLine(
  make: () => SoundLine,
  again: () => boolean,
  begins: (stage: Stage, start: number) => void = () => {},
): Promise<void> {
  stopLine();
  let stopped = false;
  let wake = () => {};
  const cuts: (() => void)[] = [];
  stop = () => {
    stopped = true;
    for (const cut of cuts) cut();
    wake();
  };
  const stage = await soundStage();
  const { context, piano } = stage;
  let start = context.currentTime + 0.1;
  do {
    const { notes, clicks, seconds } = make();
    await piano.ready(notes.map(({ pitch }) => pitch));
    if (stopped) return;
    start = Math.max(start, context.currentTime + 0.05);
    begins(stage, start);
    for (const { pitch, velocity, onset, duration } of notes)
      cuts.push(piano.strike(pitch, velocity, start + onset, duration));
    for (const { onset, pitch } of clicks) cuts.push(click(context, start + onset, pitch === 1));
    start += seconds;
    const rest = start - context.currentTime;
    await new Promise<void>((done) => {
      wake = done;
      setTimeout(done, 1000 * rest);
    });
    cuts.length = 0;
  } while (!stopped && again());
}
