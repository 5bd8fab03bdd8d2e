/** Recordings that were dropped and are being listened to: how far each is, how to stop it, and whether it is kept. */

import { percent } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { hearFile, isSound, keepSound } from "./hear-file.ts";

export interface SoundQueue {
  readonly element: HTMLElement;
  /** Listens to the recordings among the files, one after the other; gives back the others. */
  takeOver(files: readonly File[]): File[];
  /** Keeps the recording in which a document's notes were heard beside its take, where the teacher chose so. */
  keep(heard: File, take: string): Promise<void>;
}

/** @param heard called with the document of each recording that was heard */
export function soundQueue(heard: (document: File) => void): SoundQueue {
  const sounds = new Map<File, File>();
  const rows = h("ul", { class: "chosen", "aria-label": "Recordings that are listened to" });
  const keepBox = h("input", { type: "checkbox", name: "keep-sound" });
  const choice = h(
    "label",
    { class: "choice", hidden: true },
    keepBox,
    " keep the recording too, to listen to it beside the notes (without this only the notes are kept)",
  );
  const trouble = h("div", { class: "trouble" });
  let last: Promise<void> = Promise.resolve();

  const listenTo = async (file: File, row: HTMLElement, state: HTMLElement, stop: AbortController) => {
    try {
      if (stop.signal.aborted) return;
      state.textContent = "listening";
      const document = await hearFile(file, {
        signal: stop.signal,
        progress: (share) => {
          state.textContent = `listening, ${percent(share)}`;
        },
      });
      sounds.set(document, file);
      choice.hidden = false;
      heard(document);
    } catch (error) {
      if (!stop.signal.aborted) {
        trouble.append(h("p", { class: "refusal-file" }, file.name), refusalNote(error));
      }
    } finally {
      row.remove();
    }
  };

  return {
    element: h("div", { class: "sound-queue" }, rows, choice, trouble),
    takeOver(files) {
      trouble.replaceChildren();
      for (const file of files.filter(isSound)) {
        const stop = new AbortController();
        const state = h("span", { class: "state", role: "status" }, "waiting");
        const row = h(
          "li",
          {},
          h("span", { class: "file-name" }, file.name),
          state,
          h(
            "button",
            {
              type: "button",
              class: "quiet",
              "aria-label": `Stop listening to ${file.name}`,
              onClick: () => {
                stop.abort();
                row.remove();
              },
            },
            "Stop",
          ),
        );
        rows.append(row);
        last = last.then(() => listenTo(file, row, state, stop));
      }
      return files.filter((file) => !isSound(file));
    },
    async keep(document, take) {
      const sound = sounds.get(document);
      if (sound !== undefined && keepBox.checked) await keepSound(take, sound);
    },
  };
}
