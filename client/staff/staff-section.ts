/** The solo on a staff, with fingers, chord names and roles; its notes share the page's selection. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import type { AccountIndex } from "../shell/account-index.ts";
import { fetchText } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { handlePictureKey } from "../shell/picture-keys.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { onPaper } from "../views/on-paper.ts";
import { tableBelow } from "../views/picture-tools.ts";
import { keyList } from "../views/reading-choice.ts";
import { roleKey } from "../views/readings/role.ts";
import type { Actions } from "../views/view.ts";
import { engravePages, engraveWide, isEngravedOnce } from "./engrave-take.ts";
import { withoutNames } from "./engraved.ts";
import { signForHead } from "./notehead-signs.ts";
import { saveStaffButtons } from "./save-staff.ts";
import {
  chosenNotes,
  DRAWN,
  ENGRAVING,
  hasRoom,
  LOADING,
  NOT_ASKED,
  notEngraved,
  pageStands,
  pagesWords,
  passingNote,
  type StaffState,
  soundingNote,
  staffTable,
} from "./staff-model.ts";

const TITLE = "The solo on a staff, with fingers and chords";

const UNITS =
  "Numbers: fingers, in italics where they were worked out. Below: the degree. The notehead: what the note is against its chord; filled up to a quarter note, an outline from a half note on, and a tension's ring has a dot while it is short.";

export function staffSection(
  takeId: string,
  index: AccountIndex,
  store: SelectionStore,
  actions: Actions,
): { element: HTMLElement; end(): void } {
  const once = isEngravedOnce(index.solo.length);
  const plot = staffPlot(once);
  plot.addEventListener("keydown", (event) => handlePictureKey(event, index, store, actions));
  let pages: SVGSVGElement[] = [];
  /** The same for paper: as wide as a page, so that its figures are as large as those of exercises. */
  const paper = h("div", {});
  const written = new Map<string, Element[]>();
  let ended = false;
  const parts = {
    plot,
    save: saveStaffButtons("staff", () => pages),
    key: keyList(roleKey()),
    table: index.solo.length === 0 ? null : tableBelow("The solo on a staff", () => staffTable(index)),
  };
  const element = h("section", { class: "view view-staff", id: "staff", "aria-labelledby": "staff-title" });
  const { change } = drawnFrom(element, NOT_ASKED, (now) =>
    staffDrawing(now, index, parts, () => void show()),
  );

  async function show(): Promise<void> {
    change(() => LOADING);
    try {
      const xml = await fetchText(`/takes/${encodeURIComponent(takeId)}/score.musicxml`);
      change(() => ENGRAVING);
      if (!once) {
        pages = await engraveWide(xml, Math.max(320, plot.clientWidth));
        plot.replaceChildren(...pages);
        change(() => DRAWN);
        bindNotes(plot, index, store, written);
        lit(chosenNotes(index, store), "on");
      }
      await showPages(xml);
    } catch (error) {
      change(() => notEngraved(error));
    }
  }

  /** Page after page; a long solo has no other pages, and each of them can be read as soon as it stands. */
  async function showPages(xml: string): Promise<void> {
    for await (const { svg, done, all } of engravePages(xml)) {
      if (ended) return;
      bindNotes(svg, index, store, once ? written : new Map());
      (once ? plot : paper).append(withoutNames(svg));
      if (!once) continue;
      pages.push(svg);
      change(() => pageStands(done, all));
      lit(chosenNotes(index, store), "on");
    }
  }

  function lit(notes: readonly string[], name: "on" | "under"): void {
    for (const note of plot.querySelectorAll(`.${name}`)) note.classList.remove(name);
    const heads = notes.flatMap((id) => written.get(id) ?? []);
    for (const note of heads) note.classList.add(name);
    if (once && heads[0] !== undefined) bringIntoSight(plot, heads[0]);
  }

  const end = store.watch((changed) => {
    if (changed === "selection") lit(chosenNotes(index, store), "on");
    else lit(passingNote(store), "under");
  });
  const endPaper = onPaper(
    () => paper.hasChildNodes() && plot.replaceChildren(paper),
    () => paper.parentElement === plot && plot.replaceChildren(...pages),
  );
  return {
    element,
    end() {
      ended = true;
      end();
      endPaper();
    },
  };
}

const staffPlot = (long: boolean): HTMLElement =>
  h("div", {
    class: long ? "plot staff long" : "plot staff",
    tabindex: 0,
    role: "application",
    "aria-roledescription": "picture",
    "aria-labelledby": "staff-title",
    "aria-describedby": "staff-units",
  });

interface StaffParts {
  readonly plot: HTMLElement;
  readonly save: HTMLElement;
  /** Of the signs on the noteheads. */
  readonly key: HTMLElement;
  readonly table: HTMLElement | null;
}

function staffDrawing(
  now: StaffState,
  { analysis }: AccountIndex,
  { plot, save, key, table }: StaffParts,
  show: () => void,
): TemplateResult {
  const { stage, refused } = now;
  plot.hidden = !hasRoom(now);
  const ask = html`<button type="button" ?disabled=${stage !== "not asked"} @click=${show}>
    ${stage === "not asked" ? "Engrave the staff" : "Loading the engraver …"}
  </button>`;
  return html`<header><h2 id="staff-title">${TITLE}</h2>${stage === "drawn" ? save : nothing}</header>
    ${stage === "drawn" ? html`<p class="units" id="staff-units">${UNITS}</p>${key}` : nothing}
    ${
      analysis.alignment.method === "rubato"
        ? html`<p class="empty">There is no beat in this take, so its note values cannot be written.</p>`
        : stage === "drawn"
          ? nothing
          : ask
    }
    ${now.pages === null ? nothing : html`<p class="hint" role="status">${pagesWords(now)}</p>`}
    ${guard([refused], () => (refused === null ? nothing : refusalNote(refused)))}
    ${plot} ${table ?? nothing}`;
}

/** @param notes gets the written notes of each sounding note; a tied note has several */
function bindNotes(
  drawn: Element,
  index: AccountIndex,
  store: SelectionStore,
  notes: Map<string, Element[]>,
): void {
  for (const element of drawn.querySelectorAll("g.note")) {
    const id = soundingNote(element.id);
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
}

/** Scrolls the frame, and nothing but the frame, until the note is seen. */
function bringIntoSight(frame: HTMLElement, note: Element): void {
  const [inside, box] = [frame.getBoundingClientRect(), note.getBoundingClientRect()];
  if (box.top < inside.top || box.bottom > inside.bottom)
    frame.scrollTop += box.top - inside.top - inside.height / 3;
}
