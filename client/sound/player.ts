/** Plays passages of a take: the solo, what goes with it, at any speed, since notes and not sound are slowed. */
import type { AccountIndex } from "../shell/account-index.ts";
import { eventsOf, lengthOf, type Playing } from "./events.ts";
import type { Passage } from "./passages.ts";
import { createPiano } from "./piano.ts";

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

const AHEAD = 0.25;

/** `onNote` is told each solo note as it sounds, null at the end; `onState` when playing starts and stops. */
export function createPlayer(
  index: AccountIndex,
  onNote: (note: string | null) => void,
  onState: (sounding: boolean) => void,
): Player {
  let context: AudioContext | null = null;
  let piano: ReturnType<typeof createPiano> | null = null;
  let timer: ReturnType<typeof setInterval> | undefined;
  let cuts: (() => void)[] = [];
  let turn = 0;
  let sounding = false;
  let begun: { readonly start: number; readonly speed: number } | null = null;

  const stop = () => {
    turn++;
    begun = null;
    clearInterval(timer);
    for (const cut of cuts) cut();
    cuts = [];
    if (!sounding) return;
    sounding = false;
    onNote(null);
    onState(false);
  };

  return {
    get sounding() {
      return sounding;
    },
    stop,
    heardAt(moment) {
      if (context === null || begun === null) return null;
      // What the ear hears left the clock some time ago: the way to the loudspeaker, which is long with some.
      const late = (performance.now() - moment) / 1000 + (context.outputLatency || 0);
      return (context.currentTime - late - begun.start) * begun.speed;
    },
    async play(passages, how) {
      stop();
      const own = turn;
      context ??= new AudioContext();
      piano ??= createPiano(context, context.destination);
      await context.resume();
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
      const length = lengthOf(events, how.loop);
      let start = context.currentTime + 0.12;
      begun = { start, speed: how.speed };
      let next = 0;
      let shown = 0;
      const clock = context;
      const strings = piano;
      timer = setInterval(() => {
        const now = clock.currentTime;
        while (next < events.length && start + events[next]!.at / how.speed < now + AHEAD) {
          const event = events[next++]!;
          const time = start + event.at / how.speed;
          if (event.kind === "click") click(clock, time, event.pitch === 1);
          else cuts.push(strings.strike(event.pitch, event.velocity, time, event.duration / how.speed));
          if (cuts.length > 200) cuts = cuts.slice(-100);
        }
        while (shown < events.length && start + events[shown]!.at / how.speed <= now) {
          const event = events[shown++]!;
          if (event.note !== null) onNote(event.note);
        }
        if (now < start + length / how.speed) return;
        if (how.loop) {
          start += length / how.speed;
          begun = { start, speed: how.speed };
          next = 0;
          shown = 0;
        } else stop();
      }, 25);
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
