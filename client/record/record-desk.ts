/** The start button and what it sets going: the model's states, the band, and the recording that is kept meanwhile. */
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import type { Band } from "./band.ts";
import { type KeptRecordings, keptRecordings } from "./kept-recordings.ts";
import type { Played } from "./key-input.ts";
import { type Microphone, microphone } from "./microphone.ts";
import type { RecordForm } from "./record-form.ts";
import { type RecordStage, recordStage } from "./record-stage.ts";
import { isPlaying, lostWords, nextState, type RecordEvent, type RecordState } from "./record-states.ts";
import { beginUnderWay, type UnderWay } from "./under-way.ts";
import { sendKept, type UnsentPanel, unsentPanel } from "./unsent.ts";

export interface RecordDesk {
  readonly start: HTMLButtonElement;
  readonly trouble: HTMLElement;
  readonly stage: RecordStage;
  readonly unsent: UnsentPanel;
  readonly mic: Microphone;
  hear(event: Played): void;
  pedal(down: boolean, at: number): void;
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
  state: RecordState;
  band: Band | null;
  underWay: UnderWay | null;
  ended: boolean;
}

export function recordDesk(form: RecordForm, shell: Shell): RecordDesk {
  const store = keptRecordings();
  const toggle = () => (isPlaying(desk.state) ? stop(desk) : begin(desk));
  const desk: Desk = {
    form,
    shell,
    store,
    start: h("button", { type: "button", class: "main", onClick: () => void toggle() }, "Start"),
    trouble: h("div", { role: "alert" }),
    stage: recordStage((event) => hear(desk, event)),
    unsent: unsentPanel(store, shell),
    mic: microphone(),
    state: { name: "idle" },
    band: null,
    underWay: null,
    ended: false,
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
    hear: (event) => hear(desk, event),
    pedal(down, at) {
      if (desk.band) desk.underWay?.pedal(down, (at - desk.band.startedAt) / 1000);
    },
    keyboards(lost, there) {
      if (lost.length > 0 && desk.band) desk.underWay?.letGo(desk.band.now());
      turn(desk, { kind: "keyboards", lost, there });
    },
    end() {
      window.removeEventListener("beforeunload", ask);
      window.removeEventListener("pagehide", hide);
      unsent.end();
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

function hear(desk: Desk, { pitch, velocity, at }: Played): void {
  desk.stage.press(pitch, velocity > 0);
  if (!desk.band || !desk.underWay) return;
  if (velocity > 0) {
    turn(desk, { kind: "note" });
    if (desk.form.soundsOwn()) desk.band.strike(pitch, velocity);
  }
  desk.underWay.press(pitch, velocity, (at - desk.band.startedAt) / 1000);
}

async function begin(desk: Desk): Promise<void> {
  const { form, mic, stage, start, store, trouble } = desk;
  trouble.replaceChildren();
  start.disabled = true;
  start.textContent = "Loading …";
  try {
    // All is read before anything is waited for that takes time: what was set at the press of the button counts.
    const [question, backing, names] = [form.placements(), form.backing(), form.namesKeys()];
    const ownKeys = form.soundsOwn() ? Array.from({ length: 12 }, (_, i) => 48 + i * 3) : [];
    const { chart, settings } = await form.read();
    const { startBand } = await import("./band.ts");
    const map = question ? await fetchJson<PlacementMap>(`/placements?${question}`) : null;
    const band = await startBand({ ...settings, chart, backing, ownKeys });
    if (desk.ended) {
      band.stop();
      return;
    }
    desk.band = band;
    const now = () => band.now();
    const unkept = (error: unknown) =>
      trouble.replaceChildren(
        `This browser does not keep the recording (${(error as Error).message}). Do not close the page before it is sent.`,
      );
    const all = { ...settings, keepSound: mic.keeps };
    const underWay = beginUnderWay(store, all, now, unkept);
    desk.underWay = underWay;
    turn(desk, { kind: "begin", settings: all });
    mic.start(underWay.sound);
    const barOne = () => turn(desk, { kind: "bar one" });
    const heard = () => (isPlaying(desk.state) ? desk.state.heard : 0);
    stage.follow({ chart, settings, map, band, heard, barOne, names });
  } catch (error) {
    trouble.replaceChildren(refusalNote(error));
    turn(desk, { kind: "discard" });
  } finally {
    start.disabled = false;
  }
}

/** Ends the playing and keeps what was played; null when nothing was. */
async function rest(desk: Desk): Promise<{ one: UnderWay; sound: File | null } | null> {
  const { band, underWay, mic } = desk;
  desk.band = null;
  desk.underWay = null;
  desk.stage.rest();
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
    stage.place.textContent =
      "Not sent. The recording is kept in this browser; it stands at the head of this page.";
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
