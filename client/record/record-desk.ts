/** The start button and what it sets going: the model's states, the band, and the recording that is kept meanwhile. */

import type { Chart } from "../../src/chart/types.ts";
import { h } from "../shell/dom.ts";
import type { Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import type { Backing } from "../sound/backing.ts";
import type { Band } from "./band.ts";
import { loopedChart, loopText } from "./bar-loop.ts";
import { keptDelay } from "./delay-panel.ts";
import { type FreeChanges, freeChanges, isChangeKey, isChangePedal } from "./free-changes.ts";
import { type KeptRecordings, keptRecordings } from "./kept-recordings.ts";
import type { Played } from "./key-input.ts";
import { type Microphone, microphone } from "./microphone.ts";
import type { Pedal } from "./midi-input.ts";
import { placementMap, strikeChanges } from "./played-along.ts";
import type { RecordForm } from "./record-form.ts";
import { type RecordStage, recordStage } from "./record-stage.ts";
import {
  isPlaying,
  lostWords,
  nextState,
  type RecordEvent,
  type RecordingSettings,
  type RecordState,
} from "./record-states.ts";
import { readyToSend } from "./send-recording.ts";
import { stayAwake } from "./stay-awake.ts";
import { beginUnderWay, type UnderWay } from "./under-way.ts";
import { sendKept, type UnsentPanel, unsentPanel } from "./unsent.ts";

export interface RecordDesk {
  readonly start: HTMLButtonElement;
  readonly trouble: HTMLElement;
  readonly stage: RecordStage;
  readonly unsent: UnsentPanel;
  readonly mic: Microphone;
  /** The buttons that change chords in free time. */
  readonly changes: HTMLElement;
  hear(event: Played): void;
  pedal(pedal: Pedal, down: boolean, at: number): void;
  /** Shows the chart that is chosen, unless somebody plays. */
  preview(chart: Chart): void;
  /** Keyboards were unplugged, or are there again. */
  keyboards(lost: readonly string[], there: readonly string[]): void;
  /** The page is left: what was played is kept, and the shell says so. */
  end(): void;
}

/** What changes while the page stands. */
interface Desk extends Pick<RecordDesk, "start" | "trouble" | "stage" | "unsent" | "mic"> {
  readonly form: RecordForm;
  readonly shell: Shell;
  readonly store: KeptRecordings;
  readonly free: FreeChanges;
  state: RecordState;
  band: Band | null;
  underWay: UnderWay | null;
  /** What the next change of chord sounds, in free time. */
  follow: ((changes: readonly number[]) => void) | null;
  /** Lets the screen go dark again. */
  sleep: () => void;
  ended: boolean;
}

/** @param taken told of each key first: true where it was a tap that measures the delay */
export function recordDesk(form: RecordForm, shell: Shell, taken: (event: Played) => boolean): RecordDesk {
  const store = keptRecordings();
  const toggle = () => (isPlaying(desk.state) ? stop(desk) : begin(desk));
  const desk: Desk = {
    form,
    shell,
    store,
    start: h("button", { type: "button", class: "main", onClick: () => void toggle() }, "Start"),
    trouble: h("div", { role: "alert" }),
    stage: recordStage((event) => played(event)),
    free: freeChanges(
      (at) => change(desk, at),
      () => desk.underWay?.takeBackChange(),
    ),
    unsent: unsentPanel(store, shell),
    mic: microphone(),
    state: { name: "idle" },
    band: null,
    underWay: null,
    follow: null,
    sleep: () => {},
    ended: false,
  };
  const played = (event: Played) => {
    if (isPlaying(desk.state) || !taken(event)) hear(desk, event);
  };
  const ask = (event: BeforeUnloadEvent) => {
    if (isPlaying(desk.state)) event.preventDefault();
  };
  const hide = () => void desk.underWay?.keep();
  window.addEventListener("beforeunload", ask);
  window.addEventListener("pagehide", hide);
  const { start, trouble, stage, unsent, mic } = desk;
  return {
    ...{ start, trouble, stage, unsent, mic },
    changes: desk.free.element,
    hear: played,
    pedal(pedal, down, at) {
      if (!desk.band) return;
      if (isFree(desk) && isChangePedal(form.changer(), pedal)) {
        if (down) change(desk, at);
      } else if (pedal === "sustain") desk.underWay?.pedal(down, (at - desk.band.startedAt) / 1000);
    },
    preview(chart) {
      if (!isPlaying(desk.state)) stage.preview(chart);
    },
    keyboards(lost, there) {
      if (lost.length > 0 && desk.band) desk.underWay?.letGo(desk.band.now());
      turn(desk, { kind: "keyboards", lost, there });
    },
    end() {
      window.removeEventListener("beforeunload", ask);
      window.removeEventListener("pagehide", hide);
      unsent.end();
      stage.end();
      desk.free.end();
      void end(desk);
    },
  };
}

function turn(desk: Desk, event: RecordEvent): void {
  const before = lostWords(desk.state);
  desk.state = nextState(desk.state, event);
  const lost = lostWords(desk.state);
  if (lost !== before) desk.trouble.replaceChildren(lost ?? "");
  const sending = desk.state.name === "sending";
  desk.start.disabled = sending;
  desk.start.textContent = isPlaying(desk.state)
    ? "Stop and analyse"
    : sending
      ? "Being analysed …"
      : "Start";
}

const isFree = ({ state }: Desk): boolean => isPlaying(state) && state.settings.time === "free";

/** In free time the next chord begins. */
function change(desk: Desk, at: number): void {
  const { band, underWay, follow } = desk;
  if (!band || !underWay || !isFree(desk)) return;
  underWay.change((at - band.startedAt) / 1000);
  follow?.(underWay.changes());
}

function hear(desk: Desk, event: Played): void {
  const { pitch, velocity, at } = event;
  if (isFree(desk) && isChangeKey(desk.form.changer(), event)) {
    if (velocity > 0) change(desk, at);
    return;
  }
  const late = keptDelay(event.from) ?? 0;
  desk.stage.press(pitch, velocity > 0, late);
  if (!desk.band || !desk.underWay) return;
  if (velocity > 0) {
    turn(desk, { kind: "note" });
    if (desk.form.soundsOwn()) desk.band.strike(pitch, velocity);
  }
  desk.underWay.press(pitch, velocity, (at - desk.band.startedAt) / 1000 - late);
}

async function begin(desk: Desk): Promise<void> {
  const { form, mic, stage, start, trouble } = desk;
  trouble.replaceChildren();
  start.disabled = true;
  start.textContent = "Loading …";
  try {
    // All is read before anything is waited for that takes time: what was set at the press of the button counts.
    const [{ sounds, clickOn }, names, loop] = [form.backing(), form.namesKeys(), stage.loop()];
    const read = await form.read();
    const text = loopText(read.chart, loop);
    const chart = loopedChart(read.chart, loop);
    const settings = text === null ? read.settings : { ...read.settings, chart: { chart: text } };
    const free = settings.time === "free";
    const [{ startBand }] = await Promise.all([import("./band.ts"), readyToSend()]);
    const map = await placementMap(form.placements(settings.chart));
    const backing = free ? new Set<Backing>() : sounds;
    const ownKeys = keysBetween(free ? 33 : 48, form.soundsOwn() ? 84 : free ? 61 : 0);
    const band = await startBand({ ...settings, chart, backing, clickOn, ownKeys });
    if (desk.ended) {
      band.stop();
      return;
    }
    desk.band = band;
    desk.sleep = stayAwake();
    const all = { ...settings, keepSound: mic.keeps };
    const underWay = keptWhilePlayed(desk, all, band);
    desk.underWay = underWay;
    turn(desk, { kind: "begin", settings: all });
    mic.start(underWay.sound);
    desk.follow = free ? strikeChanges(chart, band, sounds) : null;
    desk.free.show(free);
    stage.preview(read.chart);
    stage.follow({
      ...{ chart, settings, map, band, names },
      before: text === null || loop === null ? null : loop.from - 1,
      changes: underWay.changes,
      heard: () => (isPlaying(desk.state) ? desk.state.heard : 0),
      barOne: () => turn(desk, { kind: "bar one" }),
    });
    // What is looked at while playing stands in the window, whatever was scrolled to before.
    start.closest("section")?.scrollIntoView();
  } catch (error) {
    trouble.replaceChildren(refusalNote(error));
    turn(desk, { kind: "discard" });
  } finally {
    start.disabled = false;
  }
}

/** Every third key, which is as many as are sampled. */
const keysBetween = (low: number, high: number): number[] =>
  Array.from({ length: Math.max(0, Math.ceil((high - low) / 3)) }, (_, i) => low + i * 3);

function keptWhilePlayed({ store, trouble }: Desk, settings: RecordingSettings, band: Band): UnderWay {
  const unkept = (error: unknown) =>
    trouble.replaceChildren(
      `This browser does not keep the recording (${(error as Error).message}). Do not close the page before it is sent.`,
    );
  // What waits to be sent is nothing that a browser may clear away when it needs room.
  void navigator.storage?.persist?.().catch(() => {});
  return beginUnderWay(store, settings, () => band.now(), unkept);
}

/** Ends the playing and keeps what was played; null when nothing was. */
async function rest(desk: Desk): Promise<{ one: UnderWay; sound: File | null } | null> {
  const { band, underWay, mic } = desk;
  desk.band = null;
  desk.underWay = null;
  desk.stage.rest();
  desk.free.show(false);
  desk.sleep();
  if (!band || !underWay) return null;
  underWay.stopAt(band.now());
  band.stop();
  const sound = await mic.stop();
  turn(desk, { kind: "stop", sound: sound !== null });
  if (desk.state.name !== "stopped unsent") {
    await underWay.discard();
    return null;
  }
  await underWay.finish({ ...desk.form.names(), keepSound: mic.keeps });
  return { one: underWay, sound };
}

async function stop(desk: Desk): Promise<void> {
  const { shell, stage, start, store, trouble, unsent } = desk;
  // Nobody stops twice.
  if (!desk.band) return;
  start.disabled = true;
  const whole = await rest(desk);
  start.disabled = false;
  if (!whole) {
    stage.place.textContent = "Nothing was played, so there is no take. Start again when you like.";
    return;
  }
  turn(desk, { kind: "send" });
  try {
    const say = (words: string) => {
      stage.place.textContent = words;
    };
    const take = await sendKept(whole.one.recording(), store, say, whole.sound);
    turn(desk, { kind: "sent", take });
    if (desk.ended) shell.notify("The recording is sent.");
    else shell.go(`/takes/${take}`);
  } catch (error) {
    turn(desk, { kind: "refused", why: (error as Error).message });
    stage.place.textContent = "Not sent. The recording is kept in this browser; it stands below the keys.";
    trouble.replaceChildren(refusalNote(error));
    if (desk.ended) shell.notify("The recording was not sent. It is kept: it waits on the record page.");
  } finally {
    await whole.one.letGoOf();
    void unsent.refresh();
  }
}

async function end(desk: Desk): Promise<void> {
  desk.ended = true;
  const whole = await rest(desk);
  desk.mic.end();
  if (!whole) return;
  await whole.one.letGoOf();
  desk.shell.notify("The recording is kept in this browser, not sent yet: it waits on the record page.");
}
