/** The library of ideas: what was named and kept, to be heard, renamed, let go, and found again. */

import type { IdeaRow } from "../../server/contract/library.ts";
import { count } from "../../src/words/index.ts";
import { drawMelody } from "../draw/melody-thumbnail.ts";
import { h } from "../shell/dom.ts";
import { ideas, VIEWPOINTS } from "../shell/ideas.ts";
import type { PageMaker, Shell } from "../shell/page.ts";
import { printedPattern } from "../shell/printed-pattern.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { playSnippet, stopSnippet } from "../sound/snippet.ts";

/** Quarter notes a minute at which an idea is played here. */
const TEMPO = 112;

export const ideasPage: PageMaker = async (_parameters, _query, shell) => {
  const { patternSound } = await import("../../src/motif/pattern-sound.ts");
  const list = h("ul", { class: "idea-list" });
  const trouble = h("div", {});
  const refresh = async () => {
    const rows = await ideas.list();
    list.replaceChildren(
      ...(rows.length === 0
        ? [
            h(
              "li",
              { class: "empty" },
              "No idea is kept yet. ",
              h("a", { href: "#/search" }, "Search for a pattern"),
              " or choose a motif on a take's page, and keep it under a name.",
            ),
          ]
        : rows.map((row) => ideaRow(row, patternSound(row.pattern), shell, refresh, trouble))),
    );
  };
  await refresh();
  return {
    title: "Ideas",
    element: h(
      "section",
      { class: "sheet" },
      h("h1", {}, "Ideas"),
      h(
        "p",
        { class: "lead" },
        "Motifs that were named and kept. Each can be found again in other takes and in a corpus, exactly or with notes that differ.",
      ),
      h("div", { class: "take-ways" }, h("a", { class: "button", href: "#/search" }, "Search for a pattern")),
      trouble,
      list,
    ),
    end: stopSnippet,
  };
};

function ideaRow(
  row: IdeaRow,
  sound: readonly { readonly pitch: number; readonly beats: number }[] | null,
  shell: Shell,
  refresh: () => Promise<void>,
  trouble: HTMLElement,
): HTMLLIElement {
  const heard = VIEWPOINTS.find(({ id }) => id === row.pattern.viewpoint)?.words ?? row.pattern.viewpoint;
  const tell = (error: unknown) => trouble.replaceChildren(refusalNote(error));
  const name = h("h2", { class: "idea-name" }, row.name);
  const remove = async () => {
    await ideas.remove(row.id);
    await refresh();
    shell.notify(`“${row.name}” is deleted.`, {
      label: "Undo",
      run: () => void ideas.restore(row.id).then(refresh).catch(tell),
    });
  };
  const rename = () => {
    const input = h("input", { value: row.name, maxlength: 200, required: true, "aria-label": "New name" });
    const form = h(
      "form",
      { class: "row rename" },
      input,
      h("button", { class: "main", type: "submit" }, "Rename"),
      h("button", { type: "button", class: "quiet", onClick: () => form.replaceWith(name) }, "Leave it"),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void ideas.rename(row.id, input.value.trim()).then(refresh).catch(tell);
    });
    name.replaceWith(form);
    input.focus();
    input.select();
  };
  return h(
    "li",
    { class: "idea", "data-idea": row.id },
    figureOf(row, sound),
    h(
      "div",
      {},
      name,
      h("p", { class: "hint" }, `${count(row.pattern.notes, "note")}, known by ${heard}`),
      h("p", { class: "idea-pattern" }, printedPattern(row.pattern)),
    ),
    h(
      "div",
      { class: "idea-tools" },
      sound === null ? null : tool("Play", row, "", () => void playIdea(sound).catch(tell)),
      h("a", { class: "button", href: `#/search?idea=${row.id}` }, "Find it"),
      ...(row.yours
        ? [
            tool("Rename", row, "quiet", rename),
            tool("Delete", row, "quiet", () => void remove().catch(tell)),
          ]
        : [h("span", { class: "hint" }, "Another teacher's")]),
    ),
  );
}

function tool(word: string, row: IdeaRow, kind: string, onClick: () => void): HTMLButtonElement {
  return h("button", { type: "button", class: kind, "aria-label": `${word} ${row.name}`, onClick }, word);
}

function playIdea(sound: readonly { readonly pitch: number; readonly beats: number }[]): Promise<void> {
  let at = 0;
  const notes = sound.map(({ pitch, beats }) => {
    const note = { pitch, at, seconds: Math.max(0.15, (beats * 60) / TEMPO) };
    at += (beats * 60) / TEMPO;
    return note;
  });
  return playSnippet(notes);
}

function figureOf(
  row: IdeaRow,
  sound: readonly { readonly pitch: number; readonly beats: number }[] | null,
): SVGSVGElement | HTMLElement {
  if (sound === null) return h("span", { class: "no-figure", "aria-hidden": "true" });
  let at = 0;
  const notes = sound.map(({ pitch, beats }) => {
    const note = { pitch, at, within: true };
    at += beats;
    return note;
  });
  return drawMelody(notes, 160, `The figure of ${row.name}`);
}
