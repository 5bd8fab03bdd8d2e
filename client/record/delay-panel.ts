/** Measuring the delay once: a click to tap with, the result, and what is kept in this browser. */
import { html, nothing, type TemplateResult } from "lit-html";
import { h } from "../shell/dom.ts";
import { type Change, drawnFrom } from "../shell/drawn-from.ts";
import {
  CLICK_EVERY,
  type Delays,
  delayOf,
  delayWords,
  LISTEN,
  readDelays,
  TAPS,
  withDelay,
  withoutDelay,
} from "./delay-model.ts";
import type { Played } from "./key-input.ts";

export interface DelayPanel {
  readonly element: HTMLElement;
  /** Takes a key for a tap while the click sounds for it; false when it does not. */
  tap(event: Played): boolean;
  end(): void;
}

const KEPT = "ledgerline-delays";

/** Seconds by which what is played on `device` comes late, as it was measured in this browser; null where it was not. */
export const keptDelay = (device: string): number | null =>
  readDelays(localStorage.getItem(KEPT))[device] ?? null;

interface PanelState {
  readonly delays: Delays;
  /** Taps so far while the click sounds, and what they are tapped on; null while it is silent. */
  readonly taps: readonly number[] | null;
  readonly device: string | null;
  readonly said: string;
}

const HOW =
  "Sound and keys take their way through a computer. Tap any key with sixteen clicks once, and that way is taken off what you record here.";

export function delayPanel(): DelayPanel {
  const element = h("div", { class: "delay" });
  const first: PanelState = {
    delays: readDelays(localStorage.getItem(KEPT)),
    taps: null,
    device: null,
    said: "",
  };
  const { state, change } = drawnFrom(element, first, (now, again) =>
    drawing(now, {
      measure: () => void measure(),
      forget: (device) => keep(again, withoutDelay(now.delays, device)),
    }),
  );
  let stop = () => {};

  async function measure(): Promise<void> {
    if (state().taps !== null) {
      stop();
      return;
    }
    change((now) => ({ ...now, taps: [], device: null, said: "" }));
    const cuts: (() => void)[] = [];
    let stopped = false;
    try {
      const [{ soundStage }, { click }, { momentOf }] = await Promise.all([
        import("../sound/stage.ts"),
        import("../sound/player.ts"),
        import("./heard-clock.ts"),
      ]);
      const { context } = await soundStage();
      const start = context.currentTime + 0.3;
      const times = Array.from({ length: LISTEN + TAPS }, (_, i) => start + i * CLICK_EVERY);
      for (const [i, time] of times.entries()) cuts.push(click(context, time, i % 4 === 0));
      await new Promise<void>((done) => {
        stop = () => {
          stopped = true;
          done();
        };
        setTimeout(done, (times.at(-1)! + CLICK_EVERY - context.currentTime) * 1000);
      });
      const clicks = times.slice(LISTEN).map((time) => momentOf(context, time) / 1000);
      change((now) => (stopped ? { ...now, taps: null } : told(now, clicks)));
      localStorage.setItem(KEPT, JSON.stringify(state().delays));
    } catch (error) {
      change((now) => ({ ...now, taps: null, said: (error as Error).message }));
    } finally {
      for (const cut of cuts) cut();
    }
  }

  return {
    element,
    tap({ at, from, velocity }) {
      if (state().taps === null) return false;
      if (velocity > 0) change((now) => tapped(now, at / 1000, from));
      return true;
    },
    end: () => stop(),
  };
}

/** What was begun on one keyboard is gone on with on it. */
function tapped(state: PanelState, seconds: number, from: string): PanelState {
  if (state.taps === null || (state.device ?? from) !== from) return state;
  return { ...state, device: from, taps: [...state.taps, seconds] };
}

function told(state: PanelState, clicks: readonly number[]): PanelState {
  const result = delayOf(clicks, state.taps ?? []);
  const done = { ...state, taps: null };
  if (result.kind === "refused" || state.device === null)
    return { ...done, said: result.kind === "refused" ? result.why : "" };
  return { ...done, said: "", delays: withDelay(state.delays, state.device, result.seconds) };
}

function keep(change: Change<PanelState>, delays: Delays): void {
  change((now) => ({ ...now, delays, said: "" }));
  localStorage.setItem(KEPT, JSON.stringify(delays));
}

function drawing(
  { delays, taps, said }: PanelState,
  ways: { readonly measure: () => void; readonly forget: (device: string) => void },
): TemplateResult {
  const devices = Object.entries(delays);
  return html`<p class="hint">${HOW}</p>
    <div class="row">
      <button type="button" @click=${ways.measure}>${taps === null ? "Measure the delay" : "Stop measuring"}</button>
      <span role="status" class="delay-said">${
        taps === null
          ? said
          : `Listen to four clicks, then tap with them: ${Math.min(TAPS, taps.length)} of ${TAPS}.`
      }</span>
    </div>
    ${
      devices.length === 0
        ? nothing
        : html`<ul class="delays">${devices.map(
            ([device, seconds]) =>
              html`<li>${delayWords(device, seconds)}.
                <button type="button" class="quiet" @click=${() => ways.forget(device)}>Forget it</button></li>`,
          )}</ul>`
    }`;
}
