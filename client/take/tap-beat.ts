/** Tapping the beat: the take plays, each tap becomes a moment, and the chart is laid through all of them. */
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { SelectionStore } from "../shell/selection.ts";
import type { Playing } from "../sound/events.ts";
import type { Player } from "../sound/player.ts";
import { tapDrawing } from "./tap-drawing.ts";
import {
  type Anchors,
  failed,
  NOT_TAPPED,
  placement,
  playFrom,
  sounding,
  startPlaying,
  tapFromBar,
  tapped,
} from "./tap-model.ts";

export interface TapBeat {
  readonly element: HTMLElement;
  /** Takes a key or touch for a tap while the take plays for it; false when it does not. */
  tap(event: Event): boolean;
  end(): void;
}

/** A tap before the first note may come this early (seconds): whoever counts in begins with it. */
const EARLIEST = -0.1;

/** The panel. `place` is told the take's new anchors and what to say of them. */
export function tapBeat(
  index: AccountIndex,
  store: SelectionStore,
  place: (anchors: Anchors, words: string) => void,
): TapBeat {
  const { analysis } = index;
  const element = h("details", { class: "tap no-print", hidden: analysis.alignment.method === "notated" });
  const { state, change } = drawnFrom(
    element,
    tapFromBar(NOT_TAPPED, store.selection, index.chartBars),
    (now) =>
      tapDrawing(now, analysis, {
        change: (next) => change(next),
        toggle: () => void toggle(),
        tap,
        place: keep,
        removePins: () => place([], "Every pin is removed."),
      }),
  );
  let player: Player | null = null;
  let from = 0;

  async function toggle(): Promise<void> {
    if (player?.sounding) {
      player.stop();
      return;
    }
    change(startPlaying);
    try {
      player ??= await tapPlayer();
      from = playFrom(index, store.selection);
      const to = analysis.notes.reduce((end, note) => Math.max(end, note.onset + note.duration), 0);
      await player.play([{ from, to }], recorded(state().speed));
      change((now) => sounding(now, player!.sounding));
    } catch (error) {
      change((now) => failed(now, error));
    }
  }

  /** Loaded when it is first played: a page that is only read needs no piano. */
  async function tapPlayer(): Promise<Player> {
    const { createPlayer } = await import("../sound/player.ts");
    return createPlayer(
      index,
      (note) => store.play(note),
      (sounds) => {
        change((now) => sounding(now, sounds));
        if (sounds) element.querySelector<HTMLElement>(".tap-pad")?.focus();
      },
    );
  }

  function tap(event: Event): boolean {
    const heard = player?.heardAt(event.timeStamp) ?? null;
    if (heard === null || heard < EARLIEST) return false;
    change((now) => tapped(now, from + heard));
    return true;
  }

  function keep(): void {
    const kept = placement(state(), analysis);
    if (kept !== null) place(kept.anchors, kept.words);
  }

  const unwatch = store.watch((changed) => {
    if (changed === "selection") change((now) => tapFromBar(now, store.selection, index.chartBars));
  });
  return {
    element,
    tap,
    end() {
      unwatch();
      player?.stop();
    },
  };
}

/** What is tapped along to is the recording as it is, with nothing put right and nothing beside it. */
const recorded = (speed: number): Playing => ({
  ...{ backing: new Set<never>(), otherHand: true, timing: "played", countIn: false, loop: false, speed },
});
