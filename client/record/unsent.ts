/** Recordings that no server has yet: each can be sent, saved as a file, or discarded. */
import { count, tempoMark, withAccidentals } from "../../src/words/index.ts";
import { download } from "../draw/picture.ts";
import { chartPreview } from "../parts/chart-preview.ts";
import { ApiError } from "../shell/api.ts";
import { fill, h } from "../shell/dom.ts";
import type { Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";
import { byHand, type KeptRecording, type KeptRecordings, oneLetGo, takeInHand } from "./kept-recordings.ts";
import { chartOf, midiOf, sendRecording } from "./send-recording.ts";

const WHOSE =
  "These lie in this browser alone. They are your own: signing out, or deleting a player on the server, leaves them here. Each is deleted here once the server has it. On a computer that others use, send them or discard them.";

export interface UnsentPanel {
  readonly element: HTMLElement;
  refresh(): Promise<void>;
  /** The page is left. */
  end(): void;
}

export function unsentPanel(store: KeptRecordings, shell: Shell): UnsentPanel {
  const element = h("section", {
    class: "sheet unsent",
    hidden: true,
    "aria-label": "Not sent yet",
    "aria-busy": "true",
  });
  // A row stays the same from one look to the next: a chart may be half typed in it.
  const rowsById = new Map<string, HTMLElement>();
  const rowOf = (kept: KeptRecording) => {
    const row = rowsById.get(kept.id) ?? unsentRow(kept, store, shell, () => void refresh());
    rowsById.set(kept.id, row);
    return row;
  };
  let look = new AbortController();
  const refresh = async () => {
    look.abort();
    const own = new AbortController();
    look = own;
    const { free, inHand } = await store.list().then(byHand, () => ({ free: [], inHand: [] }));
    // What was asked later knows more, whichever answers first.
    if (own.signal.aborted) return;
    element.ariaBusy = "false";
    element.hidden = free.length === 0;
    fill(
      element,
      h("h2", {}, `Not sent yet: ${count(free.length, "recording")}`),
      h("p", { class: "hint" }, WHOSE),
      ...free.map(rowOf),
    );
    // Refused when nothing is in hand, and when a later look takes over.
    oneLetGo(inHand, own.signal).then(refresh, () => {});
  };
  return { element, refresh, end: () => look.abort() };
}

function unsentRow(kept: KeptRecording, store: KeptRecordings, shell: Shell, gone: () => void): HTMLElement {
  const said = h("div", { role: "status" }, kept.refused);
  const text = h(
    "textarea",
    { rows: 4, spellcheck: "false", "aria-label": "Chart" },
    kept.settings.chart.chart ?? "",
  );
  const preview = chartPreview();
  text.addEventListener("input", () => preview.show(text.value));
  const buttons = h("div", { class: "row" });
  const button = (words: string, run: () => void, main = false) =>
    h("button", { type: "button", class: main ? "main" : null, onClick: run }, words);

  const send = async () => {
    const letGo = takeInHand(kept.id);
    fill(buttons);
    said.textContent = "Being sent …";
    const typed = text.value.trim();
    const chart = typed === "" ? kept.settings.chart : { chart: text.value };
    const next = { ...kept, settings: { ...kept.settings, chart } };
    try {
      const id = await sendKept(next, store, (words) => {
        said.textContent = words;
      });
      if (element.isConnected) shell.go(`/takes/${id}`);
      else shell.notify("The recording is sent.");
    } catch (error) {
      fill(said, refusalNote(error));
      offer();
    } finally {
      void letGo();
    }
  };
  const save = async () => {
    const sound = kept.notes.length === 0 ? await store.sound(kept.id) : null;
    const file = sound ?? (await midiOf(kept));
    download(`${kept.settings.title || "recording"} ${kept.date}${/\.\w+$/.exec(file.name)?.[0]}`, file);
  };
  const discard = async () => {
    await store.remove(kept.id);
    gone();
  };
  const offer = () =>
    fill(
      buttons,
      button("Send", () => void send(), true),
      button(kept.notes.length > 0 ? "Save as a MIDI file" : "Save the sound", () => void save()),
      button("Discard …", () =>
        fill(
          buttons,
          h("span", {}, "It is nowhere else. Discard it for good?"),
          button("Discard for good", () => void discard()),
          button("Keep it", offer),
        ),
      ),
    );
  offer();
  const element = h(
    "div",
    { class: "unsent-one" },
    factsLine(kept),
    said,
    h(
      "details",
      { open: kept.refused !== null && kept.settings.chart.chart !== undefined },
      h("summary", {}, "Chart"),
      text,
      preview.element,
      kept.settings.chart.chart === undefined
        ? h("p", { class: "hint" }, "While this is empty, the form that was chosen is sent.")
        : null,
    ),
    buttons,
  );
  return element;
}

/**
 * Sends a kept recording and deletes it here when the server has it; when it is refused, why is kept with it.
 *
 * @param heard what the microphone heard, where it is at hand; else what the store has
 * @returns id of the take
 */
export async function sendKept(
  kept: KeptRecording,
  store: KeptRecordings,
  say: (words: string) => void,
  heard: File | null = null,
): Promise<string> {
  let id: string;
  try {
    id = await sendRecording(kept, heard ?? (await store.sound(kept.id).catch(() => null)), say);
  } catch (error) {
    await store.put({ ...kept, refused: reason(error) }).catch(() => {});
    throw error;
  }
  await store.remove(kept.id).catch(() => {});
  return id;
}

/** "unreachable" is the network's doing; everything else was said by the server or by the chart. */
function reason(error: unknown): string {
  const words = (error as Error).message;
  return error instanceof ApiError && error.code === "unreachable"
    ? `It could not be sent: ${words}`
    : `It was not taken: ${words}`;
}

function factsLine(kept: KeptRecording): HTMLElement {
  const facts = h("p", {}, factsOf(kept, "the form that was chosen"));
  // A form is kept by its id; its name is in the chart that it stands for.
  chartOf(kept.settings.chart).then(
    ({ name }) => {
      if (name)
        facts.textContent = factsOf(kept, `${name} in ${withAccidentals(kept.settings.chart.key ?? "C")}`);
    },
    () => {},
  );
  return facts;
}

/** @param form name of the form, where no chart was typed */
function factsOf({ date, startedAt, notes, seconds, settings }: KeptRecording, form: string): string {
  const time = new Date(startedAt).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  const { chart } = settings.chart;
  return [
    `${settings.title || "Recording"}`,
    settings.player,
    `${day(date)}, ${time}`,
    notes.length > 0 ? count(notes.length, "note") : "sound",
    `${Math.round(seconds)} s`,
    settings.time === "free" ? "free time" : tempoMark(settings.quartersPerMinute),
    chart === undefined ? form : "typed chart",
  ]
    .filter(Boolean)
    .join(" · ");
}
