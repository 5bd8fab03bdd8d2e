/** The solo on a staff, with fingers, chord names and roles; its notes share the page's selection. */
import { beatInFigures, withAccidentals } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { fetchText } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { handlePictureKey } from "../shell/picture-keys.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { tableBelow } from "../views/picture-tools.ts";
import { keyList } from "../views/reading-choice.ts";
import { roleKey } from "../views/readings/role.ts";
import type { Actions, Table } from "../views/view.ts";
import { signForHead } from "./notehead-signs.ts";
import { saveStaffButtons } from "./save-staff.ts";

const UNITS =
  "Numbers: fingers, in italics where they were worked out. Below: the degree. The notehead: what the note is against its chord; filled up to a quarter note, an outline from a half note on, and a tension's ring has a dot while it is short.";

export function staffSection(
  takeId: string,
  index: AccountIndex,
  store: SelectionStore,
  actions: Actions,
): { element: HTMLElement; end(): void } {
  const plot = h("div", {
    class: "plot staff",
    tabindex: 0,
    role: "application",
    "aria-roledescription": "picture",
    "aria-labelledby": "staff-title",
    "aria-describedby": "staff-units",
    hidden: true,
  });
  const trouble = h("div", {});
  let notes = new Map<string, Element[]>();
  let pages: SVGSVGElement[] = [];
  const ask = h("button", { type: "button", onClick: () => void show() }, "Engrave the staff");
  const save = saveStaffButtons("staff", () => pages);
  save.hidden = true;
  const element = h(
    "section",
    { class: "view view-staff", id: "staff", "aria-labelledby": "staff-title" },
    h("header", {}, h("h2", { id: "staff-title" }, "The solo on a staff, with fingers and chords"), save),
    h("p", { class: "units", id: "staff-units" }, UNITS),
    keyList(roleKey()),
    index.analysis.alignment.method === "rubato"
      ? h("p", { class: "empty" }, "There is no beat in this take, so its note values cannot be written.")
      : ask,
    trouble,
    plot,
    index.solo.length === 0 ? null : tableBelow("The solo on a staff", () => tableOf(index)),
  );

  const show = async () => {
    ask.disabled = true;
    ask.textContent = "Loading the engraver …";
    trouble.replaceChildren();
    try {
      const [{ engrave }, xml] = await Promise.all([
        import("./engraver.ts"),
        fetchText(`/takes/${encodeURIComponent(takeId)}/score.musicxml`),
      ]);
      plot.hidden = false;
      pages = await engrave(xml, { width: Math.max(320, plot.clientWidth) });
      plot.replaceChildren(...pages);
      notes = bindNotes(plot, index, store);
      ask.remove();
      save.hidden = false;
      mark();
    } catch (error) {
      ask.disabled = false;
      ask.textContent = "Engrave the staff";
      plot.hidden = true;
      trouble.replaceChildren(refusalNote(error));
    }
  };
  let on: Element[] = [];
  let passing: Element[] = [];
  const mark = () => {
    for (const note of on) note.classList.remove("on");
    on = [...(index.notesOf(store.selection) ?? [])].flatMap((id) => notes.get(id) ?? []);
    for (const note of on) note.classList.add("on");
  };
  const unwatch = store.watch((change) => {
    if (change === "selection") mark();
    else {
      for (const note of passing) note.classList.remove("under");
      const id = store.playing ?? store.hover;
      passing = id === null ? [] : (notes.get(id) ?? []);
      for (const note of passing) note.classList.add("under");
    }
  });
  plot.addEventListener("keydown", (event) => handlePictureKey(event, index, store, actions));

  return { element, end: unwatch };
}

/** Written notes of each sounding note; a tied note has several. */
function bindNotes(plot: HTMLElement, index: AccountIndex, store: SelectionStore): Map<string, Element[]> {
  const notes = new Map<string, Element[]>();
  for (const element of plot.querySelectorAll("g.note")) {
    const id = element.id.replace(/-\d+$/, "");
    const note = index.note.get(id);
    // The page's ids must stay one of a kind.
    element.setAttribute("data-note", id);
    element.removeAttribute("id");
    if (!note) continue;
    element.classList.add(`role-${note.role ?? "none"}`);
    if (note.solo) signForHead(element, note.role);
    notes.set(id, [...(notes.get(id) ?? []), element]);
    element.addEventListener("click", (event) => {
      event.stopPropagation();
      store.select({ kind: "note", note: id });
    });
    element.addEventListener("pointerenter", () => store.point(id));
    element.addEventListener("pointerleave", () => store.point(null));
  }
  return notes;
}

function tableOf(index: AccountIndex): Table {
  return {
    columns: [
      "Note",
      "Chorus",
      "Bar",
      "Beat",
      "Length (quarter notes)",
      "Finger",
      "Chord",
      "Against the chord",
    ],
    rows: index.solo.map((note) => [
      withAccidentals(note.spelling),
      note.chorus,
      note.bar,
      note.beat === null ? "no beat" : beatInFigures(note.beat),
      note.beats === null ? "no beat" : beatInFigures(note.beats),
      note.finger ?? "",
      withAccidentals(note.chord ?? "none"),
      note.role ?? "",
    ]),
  };
}
