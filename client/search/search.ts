/** Where is it played? A pattern in one take, a player's takes, all of them, or a corpus, the closest places first. */

import type { AskedNote, Found, Pattern } from "../../server/contract/pattern.ts";
import type { MotifViewpoint } from "../../src/account.ts";
import { capital, count, placeInWords, withAccidentals } from "../../src/words/index.ts";
import { indexAccount } from "../shell/account-index.ts";
import { players, takes } from "../shell/api.ts";
import { corpora } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import { ideas, patternWords, readPatternWords, searchFor, VIEWPOINTS } from "../shell/ideas.ts";
import type { PageMaker, Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { playSnippet, stopSnippet } from "../sound/snippet.ts";
import { foundHits } from "../views/found-hits.ts";
import { type PatternStart, patternInput, type Way } from "./pattern-input.ts";

const LIMIT = 100;

export const searchPage: PageMaker = async (_parameters, query, shell) => {
  const [ideaRows, takeRows, playerRows, corpusRows] = await Promise.all([
    ideas.list(),
    takes.list(),
    players(),
    corpora.list(),
  ]);
  const picked = await pickedFrom(query);
  const idea = ideaRows.find((row) => row.id === query.get("idea")) ?? null;
  const viewpointAsked = VIEWPOINTS.find(({ id }) => id === query.get("viewpoint"))?.id;
  const symbolsAsked = query.get("symbols") ?? "";
  const way: Way = picked ? "picked" : idea ? "idea" : symbolsAsked ? "write" : "play";
  const first: MotifViewpoint = viewpointAsked ?? idea?.pattern.viewpoint ?? "chromatic interval";
  const start: PatternStart = {
    way,
    viewpoint: first,
    symbols: symbolsAsked ? readPatternWords(symbolsAsked, first) : [3, 2, 1],
    idea: idea?.id ?? null,
    picked,
  };
  const viewpoint = h(
    "select",
    { name: "viewpoint" },
    ...VIEWPOINTS.map(({ id, words }) => h("option", { value: id, selected: id === first }, words)),
  );
  const pattern = patternInput(
    ideaRows,
    start,
    (next) => {
      viewpoint.value = next;
    },
    (pitch) => void playSnippet([{ pitch, at: 0, seconds: 0.4 }]).catch(() => {}),
  );
  const looked = () => viewpoint.value as MotifViewpoint;
  viewpoint.addEventListener("change", () => pattern.lookAt(looked()));
  const edits = h(
    "select",
    { name: "edits" },
    ...[0, 1, 2, 3, 4].map((n) =>
      h("option", { value: n, selected: String(n) === query.get("edits") }, n === 0 ? "none" : String(n)),
    ),
  );
  const within = query.get("in") ?? "all";
  const option = (value: string, words: string) => h("option", { value, selected: value === within }, words);
  const where = h(
    "select",
    { name: "in" },
    option("all", "all takes"),
    h(
      "optgroup",
      { label: "Takes of a player" },
      ...playerRows.map((row) => option(`player:${row.id}`, row.name)),
    ),
    h(
      "optgroup",
      { label: "A corpus" },
      ...corpusRows.map((row) => option(`corpus:${row.id}`, `${row.name}, ${count(row.takes, "take")}`)),
    ),
    h(
      "optgroup",
      { label: "One take" },
      ...takeRows.map((row) =>
        option(`take:${row.id}`, [row.title ?? row.id, row.player].filter(Boolean).join(", ")),
      ),
    ),
  );
  const result = h("section", { class: "sheet search-result", "aria-label": "What was found", hidden: true });
  const trouble = h("div", {});
  const search = async () => {
    trouble.replaceChildren();
    result.setAttribute("aria-busy", "true");
    try {
      const [kind, id] = where.value.split(/:(.*)/);
      const found = await searchFor(
        {
          viewpoint: looked(),
          ...(await pattern.read(looked())),
          maxEdits: Number(edits.value),
          limit: LIMIT,
          ...(kind === "take" && id ? { take: id } : {}),
          ...(kind === "player" && id ? { player: id } : {}),
        },
        kind === "corpus" && id ? id : null,
      );
      shell.replaceQuery(addressOf(found.pattern, Number(edits.value), where.value));
      result.hidden = false;
      result.replaceChildren(foundHits(found), keeper(found.pattern, shell));
    } catch (error) {
      result.hidden = true;
      trouble.replaceChildren(refusalNote(error));
    } finally {
      result.removeAttribute("aria-busy");
    }
  };
  const form = h(
    "form",
    { class: "sheet search-form", role: "search" },
    h("h1", {}, "Where is it played?"),
    pattern.element,
    h(
      "div",
      { class: "row" },
      h("label", {}, "Listen for", viewpoint),
      h("label", {}, "Notes that may differ", edits),
      h("label", {}, "Look in", where),
      h("button", { class: "main", type: "submit" }, "Search"),
    ),
    trouble,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void search();
  });
  if (way !== "play") await search();
  return {
    title: "Search",
    element: h("div", { class: "stack" }, form, result),
    end() {
      pattern.end();
      stopSnippet();
    },
  };
};

/** The address of a search, so that it can be kept and sent. */
function addressOf(pattern: Pattern, edits: number, where: string): string {
  return new URLSearchParams({
    viewpoint: pattern.viewpoint,
    symbols: patternWords(pattern),
    edits: String(edits),
    in: where,
  }).toString();
}

/** The notes that "from" and "to" of a take mean. */
async function pickedFrom(query: URLSearchParams): Promise<PatternStart["picked"]> {
  const [take, from, to] = [query.get("take"), query.get("from"), query.get("to")];
  if (!take || !from || !to) return null;
  const [row, analysis] = await Promise.all([takes.get(take), takes.analysis(take)]);
  const notes = indexAccount(analysis).between(from, to);
  const first = notes[0];
  if (!first) return null;
  return {
    words: `${count(notes.length, "note")} of “${row.title ?? take}”, from ${placeInWords(first)}`,
    names: notes.map((note) => note.spelling),
    notes: notes.map(
      ({ pitch, position, degree, finger }): AskedNote => ({ pitch, position, degree, finger }),
    ),
  };
}

/** Names the pattern that was looked for and keeps it among the ideas. */
function keeper(pattern: Found["pattern"], shell: Shell): HTMLElement {
  const name = h("input", { name: "idea-name", maxlength: 200, required: true, autocomplete: "off" });
  const answer = h("div", { "aria-live": "polite" });
  const form = h(
    "form",
    { class: "keep-idea" },
    h("h2", { class: "small-head" }, "Keep it as an idea"),
    h(
      "p",
      { class: "hint" },
      `${capital(count(pattern.notes, "note"))}: ${withAccidentals(patternWords(pattern))}`,
    ),
    h(
      "div",
      { class: "row" },
      h("label", {}, "Name of the idea", name),
      h("button", { type: "submit" }, "Keep it"),
    ),
    answer,
  );
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      const row = await ideas.create(name.value.trim(), pattern);
      answer.replaceChildren();
      shell.notify(`“${row.name}” is kept among the ideas.`);
      name.value = "";
    } catch (error) {
      answer.replaceChildren(refusalNote(error));
    }
  });
  return form;
}
