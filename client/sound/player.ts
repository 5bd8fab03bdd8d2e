/** Plays passages of a take: the solo, what goes with it, at any speed, since notes and not sound are slowed. */
import type { AccountIndex } from "../shell/account-index.ts";
import { eventsOf, lengthOf, type Playing } from "./events.ts";
import type { Passage } from "./passages.ts";
import { dueAt, type Playhead, type Score, startingAt } from "./playhead.ts";
import { type Stage, soundStage } from "./stage.ts";

export interface Player {
  play(passages: readonly Passage[], how: Playing): Promise<void>;
  stop(): void;
  readonly sounding: boolean;
  /**
   * Seconds of the playing, at speed 1, that were heard at a moment of the page's clock (an event's `timeStamp`,
   * milliseconds); null when nothing sounds.
   */
  heardAt(moment: number): number | null;
}

/** Milliseconds between two looks at the clock. */
const TICK = 25;
/** Seconds before the first note: the instrument is told of it in time. */
const PREPARE = 0.12;
/** Strikes of which the latest half may still sound, and could be cut. */
const MOST_CUTS = 200;

/** `onNote` is told each solo note as it sounds, null at the end; `onState` when playing starts and stops. */
export function createPlayer(
  index: AccountIndex,
  onNote: (note: string | null) => void,
  onState: (sounding: boolean) => void,
): Player {
  let stage: Stage | null = null;
  let timer: ReturnType<typeof setInterval> | undefined;
  let cuts: (() => void)[] = [];
  let turn = 0;
  let sounding = false;
  let playing: { readonly head: Playhead; readonly speed: number } | null = null;

  function stop(): void {
    turn++;
    playing = null;
    clearInterval(timer);
    for (const cut of cuts) cut();
    cuts = [];
    if (!sounding) return;
    sounding = false;
    onNote(null);
    onState(false);
  }

  /** Gives the instrument what is due, and shows what is heard. */
  function goOn(score: Score, { context, piano }: Stage): void {
    if (playing === null) return;
    const { strikes, heard, head } = dueAt(score, playing.head, context.currentTime);
    for (const { event, time } of strikes) {
      if (event.kind === "click") click(context, time, event.pitch === 1);
      else cuts.push(piano.strike(event.pitch, event.velocity, time, event.duration / score.speed));
    }
    if (cuts.length > MOST_CUTS) cuts = cuts.slice(-MOST_CUTS / 2);
    for (const note of heard) onNote(note);
    if (head === null) stop();
    else playing = { head, speed: score.speed };
  }

  return {
    get sounding() {
      return sounding;
    },
    stop,
    heardAt(moment) {
      if (stage === null || playing === null) return null;
      const { context } = stage;
      // What the ear hears left the clock some time ago: the way to the loudspeaker, which is long with some.
      const late = (performance.now() - moment) / 1000 + (context.outputLatency || 0);
      return (context.currentTime - late - playing.head.start) * playing.speed;
    },
    async play(passages, how) {
      stop();
      const own = turn;
      const on = await soundStage();
      stage = on;
      const { context, piano } = on;
      const events = eventsOf(index, passages, how);
      if (events.length === 0) return;
      sounding = true;
      onState(true);
      try {
        await piano.ready(events.filter((event) => event.kind !== "click").map((event) => event.pitch));
      } catch (error) {
        if (own === turn) stop();
        throw error;
      }
      if (own !== turn) return;
      const score = { events, length: lengthOf(events, how.loop), speed: how.speed, loop: how.loop };
      playing = { head: startingAt(context.currentTime + PREPARE), speed: how.speed };
      timer = setInterval(() => goOn(score, on), TICK);
    },
  };
}

/** A short tick, higher on the bar's first beat; returns the way to leave it out before it has sounded. */
export function click(context: AudioContext, time: number, first: boolean): () => void {
  const tone = context.createOscillator();
  const level = context.createGain();
  tone.frequency.value = first ? 1760 : 1320;
  level.gain.setValueAtTime(first ? 0.22 : 0.14, time);
  level.gain.exponentialRampToValueAtTime(0.001, time + 0.05);
  tone.connect(level).connect(context.destination);
  tone.start(time);
  tone.stop(time + 0.06);
  return () => tone.disconnect();
}
