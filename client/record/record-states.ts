/** What the record page is doing, and what may follow: a model without a browser. */
import type { HandOptions } from "../parts/hand-choice.ts";

/** What was set when the count-in began. The form may change while somebody plays; this does not. */
export interface RecordingSettings {
  /** As the service takes it: `form` and `key`, or `chart`. */
  readonly chart: { readonly form?: string; readonly key?: string; readonly chart?: string };
  readonly quartersPerMinute: number;
  readonly countInBars: number;
  /** Meter of the click, which is that of the chart at the start. */
  readonly meter: { readonly beats: number; readonly unit: number };
  /** "free": no click; chords begin where the player changed them. Missing in recordings of older pages: a click. */
  readonly time?: "click" | "free";
  readonly hand: HandOptions;
  readonly player: string;
  readonly title: string;
  /** Whether what a microphone heard is to be kept beside its notes. */
  readonly keepSound: boolean;
}

/** While somebody plays: notes that were struck so far, and keyboards that were unplugged meanwhile. */
interface Playing {
  readonly settings: RecordingSettings;
  readonly heard: number;
  readonly lost: readonly string[];
}

export type RecordState =
  | { readonly name: "idle" }
  | ({ readonly name: "counting in" } & Playing)
  | ({ readonly name: "recording" } & Playing)
  | { readonly name: "stopped unsent"; readonly settings: RecordingSettings }
  | { readonly name: "sending"; readonly settings: RecordingSettings }
  | { readonly name: "refused"; readonly settings: RecordingSettings; readonly why: string }
  | { readonly name: "sent"; readonly take: string };

export type RecordEvent =
  | { readonly kind: "begin"; readonly settings: RecordingSettings }
  | { readonly kind: "bar one" }
  | { readonly kind: "note" }
  | { readonly kind: "keyboards"; readonly lost: readonly string[]; readonly there: readonly string[] }
  /** `sound`: whether a microphone recorded, so that there is something even without a note. */
  | { readonly kind: "stop"; readonly sound: boolean }
  | { readonly kind: "send" }
  | { readonly kind: "refused"; readonly why: string }
  | { readonly kind: "sent"; readonly take: string }
  | { readonly kind: "discard" };

/** The state after an event. An event that has no meaning in a state (a note while idle) changes nothing. */
export function nextState(state: RecordState, event: RecordEvent): RecordState {
  switch (state.name) {
    case "counting in":
    case "recording":
      return whilePlaying(state, event);
    case "sending":
      if (event.kind === "sent") return { name: "sent", take: event.take };
      if (event.kind === "refused") return { name: "refused", settings: state.settings, why: event.why };
      return state;
    case "stopped unsent":
    case "refused":
      if (event.kind === "send") return { name: "sending", settings: state.settings };
      if (event.kind === "discard") return { name: "idle" };
      return begun(state, event);
    default:
      return begun(state, event);
  }
}

/** What is unsent lies in the browser's store, so the next recording may begin beside it. */
function begun(state: RecordState, event: RecordEvent): RecordState {
  return event.kind === "begin"
    ? { name: "counting in", settings: event.settings, heard: 0, lost: [] }
    : state;
}

function whilePlaying(
  state: { name: "counting in" | "recording" } & Playing,
  event: RecordEvent,
): RecordState {
  switch (event.kind) {
    case "bar one":
      return { ...state, name: "recording" };
    case "note":
      return { ...state, heard: state.heard + 1 };
    case "keyboards": {
      const lost = new Set([...state.lost, ...event.lost]);
      for (const name of event.there) lost.delete(name);
      return { ...state, lost: [...lost] };
    }
    case "stop":
      return state.heard > 0 || event.sound
        ? { name: "stopped unsent", settings: state.settings }
        : { name: "idle" };
    default:
      return state;
  }
}

export function isPlaying(state: RecordState): state is Extract<RecordState, Playing> {
  return state.name === "counting in" || state.name === "recording";
}

/** What is to be said of keyboards that were unplugged while somebody plays; null when all are there. */
export function lostWords(state: RecordState): string | null {
  if (!isPlaying(state) || state.lost.length === 0) return null;
  const names = state.lost.map((name) => `“${name}”`).join(" and ");
  return `${names} ${state.lost.length === 1 ? "is" : "are"} no longer connected. What was played so far is kept. Connect it again and go on, or stop here.`;
}
