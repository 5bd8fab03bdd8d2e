/** From dropped files to analysed takes: which chart, whose, and how far each one is. */

import type { FormRow } from "../../server/contract/charts.ts";
import { count } from "../../src/words/index.ts";
import { SOUND_KINDS } from "../listen/hear-file.ts";
import { soundQueue } from "../listen/sound-queue.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { handSlot } from "../parts/hand-choice.ts";
import { playerField } from "../parts/usual-chart.ts";
import { ApiError, sendTake, shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { knownNote } from "./known-file.ts";

const KINDS = `.mid,.midi,.musicxml,.mxl,.xml,${SOUND_KINDS}`;

export interface AddTakes {
  readonly element: HTMLElement;
  add(files: readonly File[]): void;
}

/** The panel; `done` is called after each file that was stored. */
export function addTakes(
  forms: readonly FormRow[],
  players: readonly { readonly id: string; readonly name: string }[],
  shell: Shell,
  done: () => void,
): AddTakes {
  let files: File[] = [];
  const listening = soundQueue((document) => add([document], true));
  const chart = chartFields(forms, { changed: () => nameSend() });
  const picker = h("input", {
    type: "file",
    id: "take-files",
    accept: KINDS,
    multiple: true,
    class: "file-input",
    onChange: (event: Event) => add([...((event.target as HTMLInputElement).files ?? [])]),
  });
  const hand = handSlot(shapes.list);
  const chosen = h("ul", { class: "chosen", "aria-label": "Chosen files" });
  const details = h("div", { class: "add-details", hidden: true });
  const player = playerField("known-players", players, chart);
  const title = h("input", { name: "title", autocomplete: "off" });
  const date = h("input", { name: "date", type: "date" });
  const trouble = h("div", { class: "trouble" });
  const send = h("button", { class: "main", type: "submit" }, "Analyse");
  const form = h(
    "form",
    { class: "add", novalidate: true },
    h(
      "div",
      { class: "drop" },
      h(
        "p",
        { class: "drop-words" },
        h("strong", {}, "Drop a solo here"),
        " or anywhere on the page: a MIDI recording, a MusicXML score, or a sound recording of a piano.",
      ),
      h("label", { class: "button", for: "take-files" }, "Choose files"),
      picker,
    ),
    chosen,
    listening.element,
    details,
    trouble,
  );
  details.append(
    chart.element,
    hand.element,
    h(
      "div",
      { class: "row" },
      h("label", {}, "Player", player),
      h("label", {}, "Title", title),
      h("label", {}, "Date", date),
    ),
    h("datalist", { id: "known-players" }, ...players.map(({ name }) => h("option", { value: name }))),
    send,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void sendAll();
  });

  function add(more: readonly File[], heard = false): void {
    files = [...files, ...(heard ? more : listening.takeOver(more))];
    picker.value = "";
    if (!heard) trouble.replaceChildren();
    list();
  }

  function nameSend(): void {
    if (files.length > 1) send.textContent = `Analyse ${count(files.length, "file")}`;
    else send.textContent = chart.toConfirm() ? "Confirm the chart and analyse" : "Analyse";
  }

  function list(): void {
    details.hidden = files.length === 0;
    title.parentElement!.hidden = files.length > 1;
    chart.hear(files.length === 1 ? files[0]! : null);
    nameSend();
    chosen.replaceChildren(
      ...files.map((file, i) =>
        chosenRow(file, i, () => {
          files = files.filter((other) => other !== file);
          list();
        }),
      ),
    );
  }

  async function sendAll(): Promise<void> {
    trouble.replaceChildren();
    send.disabled = true;
    const sent = new Set<File>();
    let lastId = "";
    for (const [i, file] of files.entries()) {
      const row = chosen.querySelector<HTMLElement>(`[data-file="${i}"]`);
      const bar = row?.querySelector("progress");
      const state = row?.querySelector<HTMLElement>(".state");
      if (bar) bar.hidden = false;
      if (state) state.textContent = "on its way";
      try {
        const { take } = await sendTake(
          {
            ...chart.read(),
            player: player.value.trim(),
            title: files.length === 1 ? title.value.trim() : "",
            date: date.value,
            options: JSON.stringify(hand.read()),
          },
          file,
          (share) => {
            if (bar) {
              if (share < 1) bar.value = share;
              else bar.removeAttribute("value");
            }
            if (state) state.textContent = share < 1 ? "on its way" : "being analysed";
          },
        );
        await listening.keep(file, take.id);
        sent.add(file);
        lastId = take.id;
        if (bar) bar.value = 1;
        if (state) state.textContent = "done";
      } catch (error) {
        if (bar) bar.hidden = true;
        if (state) state.textContent = "not taken";
        trouble.append(
          files.length > 1 ? h("p", { class: "refusal-file" }, file.name) : "",
          refusalNote(error instanceof ApiError ? error : new Error(String(error))),
        );
      }
    }
    send.disabled = false;
    const only = files.length === 1;
    files = files.filter((file) => !sent.has(file));
    if (sent.size > 0) done();
    if (only && sent.size === 1) shell.go(`/takes/${lastId}`);
    else {
      list();
      if (sent.size > 0) shell.notify(sentWords(sent.size, files.length));
    }
  }

  return { element: form, add };
}

function size(bytes: number): string {
  return bytes < 1024 ? `${bytes} bytes` : `${(bytes / 1024).toFixed(bytes < 10_240 ? 1 : 0)} kB`;
}

function sentWords(sent: number, left: number): string {
  return `${count(sent, "take")} analysed.${left > 0 ? ` ${count(left, "file")} could not be taken.` : ""}`;
}

function chosenRow(file: File, index: number, leaveOut: () => void): HTMLElement {
  return h(
    "li",
    { "data-file": index },
    h("span", { class: "file-name" }, file.name),
    h("span", { class: "faint" }, size(file.size)),
    h("progress", { max: 1, value: 0, hidden: true, "aria-label": `Progress of ${file.name}` }),
    h("span", { class: "state" }),
    h(
      "button",
      { type: "button", class: "quiet", "aria-label": `Leave out ${file.name}`, onClick: leaveOut },
      "Leave out",
    ),
    knownNote(file),
  );
}
