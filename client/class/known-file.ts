/** Whether a file is among the takes already, said before it is sent. */
import { h } from "../shell/dom.ts";
import { day } from "../shell/words.ts";
import { readTakes } from "./class-api.ts";
import { takeName } from "./take-list-model.ts";

const notes = new WeakMap<File, HTMLElement>();

/**
 * A note that fills when the server knows the file; the same one for the same file. Empty where it is new, where the
 * server does not answer, and where the browser makes no hashes (pages over plain HTTP from another machine).
 */
export function knownNote(file: File): HTMLElement {
  const known = notes.get(file);
  if (known !== undefined) return known;
  const note = h("span", { class: "known-file", role: "status" });
  notes.set(file, note);
  void fill(note, file).catch(() => {});
  return note;
}

async function fill(note: HTMLElement, file: File): Promise<void> {
  if (!("subtle" in crypto)) return;
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", await file.arrayBuffer()));
  const source = [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const { takes, total } = await readTakes(`source=${source}&limit=1`);
  const [take] = takes;
  if (take === undefined) return;
  const facts = [take.player, day(take.date)].filter(Boolean).join(", ");
  note.append(
    "Here already: ",
    h("a", { href: `#/takes/${take.id}` }, takeName(take)),
    facts ? ` (${facts})` : "",
    total > 1 ? `, and ${total - 1} more of the same file` : "",
    ". Analysing makes another take of it.",
  );
}
