/** The keyboard in every picture: walk from note to note, widen the selection, play it. */
import type { AccountNote } from "../../src/account.ts";
import type { Actions } from "../views/view.ts";
import type { AccountIndex } from "./account-index.ts";
import type { SelectionStore } from "./selection.ts";

/** What the keys do while a picture has the focus; shown by "?". */
export const PICTURE_KEYS: readonly (readonly [string, string])[] = [
  ["← →", "the note before, the note after"],
  ["Shift ← →", "as many notes as you like, from this one on"],
  ["↑ ↓", "the same place one chorus earlier, one chorus later"],
  ["Home, End", "the first note, the last note"],
  ["B", "the bar of this note"],
  ["V", "this bar in every chorus"],
  ["C", "the chorus of this note"],
  ["H", "its phrase"],
  ["P", "its hand placement"],
  ["M", "its motif; again for the next one"],
  ["Space", "play what is selected, or stop"],
  ["Escape", "select nothing"],
];

/** Handles one key press of a focused picture. */
export function handlePictureKey(
  event: KeyboardEvent,
  index: AccountIndex,
  store: SelectionStore,
  actions: Actions,
): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const note = current(index, store);
  const at = note ? (index.order.get(note.id) ?? 0) : -1;
  const go = (next: AccountNote | undefined) => {
    if (next) store.select({ kind: "note", note: next.id });
  };
  const { solo } = index;
  if (event.shiftKey && (event.key === "ArrowRight" || event.key === "ArrowLeft")) {
    stretch(index, store, event.key === "ArrowRight" ? 1 : -1);
    event.preventDefault();
    return;
  }
  switch (event.key) {
    case "ArrowRight":
      go(solo[Math.min(solo.length - 1, at + 1)]);
      break;
    case "ArrowLeft":
      go(solo[Math.max(0, at - 1)]);
      break;
    case "ArrowDown":
      go(note ? sibling(index, note, 1) : solo[0]);
      break;
    case "ArrowUp":
      go(note ? sibling(index, note, -1) : solo[0]);
      break;
    case "Home":
      go(solo[0]);
      break;
    case "End":
      go(solo.at(-1));
      break;
    case "Escape":
      store.select({ kind: "none" });
      break;
    case " ":
      actions.play?.();
      break;
    default:
      if (!note || !widen(event.key.toLowerCase(), note, index, store)) return;
  }
  event.preventDefault();
}

/** Makes the selection longer or shorter by a note at its end; a selected note is where it begins. */
function stretch(index: AccountIndex, store: SelectionStore, step: 1 | -1): void {
  const { selection } = store;
  const first = selection.kind === "stretch" ? selection.first : current(index, store)?.id;
  const end = selection.kind === "stretch" ? selection.last : first;
  const [from, at] = [index.order.get(first ?? ""), index.order.get(end ?? "")];
  if (first === undefined || from === undefined || at === undefined) return;
  const last = index.solo[Math.max(from, at + step)];
  if (last) store.select({ kind: "stretch", first, last: last.id });
}

function widen(key: string, note: AccountNote, index: AccountIndex, store: SelectionStore): boolean {
  switch (key) {
    case "b":
      store.select({ kind: "bar", chorus: note.chorus, bar: note.bar });
      return true;
    case "v":
      store.select({ kind: "bar", chorus: null, bar: note.bar });
      return true;
    case "c":
      store.select({ kind: "chorus", chorus: note.chorus });
      return true;
    case "h":
      if (note.phrase) store.select({ kind: "phrase", phrase: note.phrase });
      return true;
    case "p":
      if (note.placement) store.select({ kind: "placement", placement: note.placement });
      return true;
    case "m": {
      const { selection } = store;
      const held = selection.kind === "motif" ? note.motifs.indexOf(selection.motif) : -1;
      const motif = note.motifs[(held + 1) % Math.max(1, note.motifs.length)];
      if (motif && index.motif.has(motif)) store.select({ kind: "motif", motif });
      return true;
    }
    default:
      return false;
  }
}

/** The note to walk on from: the selected one, else the first of what is selected, else the one under the pointer. */
function current(index: AccountIndex, store: SelectionStore): AccountNote | null {
  const { selection } = store;
  if (selection.kind === "note") return index.note.get(selection.note) ?? null;
  const ids = index.notesOf(selection);
  if (ids) return index.solo.find((note) => ids.has(note.id)) ?? null;
  return null;
}

/** The note nearest to the same place in another chorus that has a note in this bar. */
function sibling(index: AccountIndex, note: AccountNote, step: 1 | -1): AccountNote | undefined {
  for (
    let chorus = note.chorus + step;
    chorus >= 1 && chorus <= (index.choruses.at(-1) ?? 1);
    chorus += step
  ) {
    const notes = index.inBar(chorus, note.bar);
    if (notes.length === 0) continue;
    const place = index.within(note);
    return notes.reduce((best, other) =>
      Math.abs(index.within(other) - place) < Math.abs(index.within(best) - place) ? other : best,
    );
  }
  return undefined;
}
