/** What a search found, the closest first: each place with the notes around it, to read, to hear and to open. */

import type { Found, Hit } from "../../server/contract/pattern.ts";
import { capital, count, placeInWords } from "../../src/words/index.ts";
import { drawMelody } from "../draw/melody-thumbnail.ts";
import { h } from "../shell/dom.ts";
import { hitNames } from "../shell/ideas.ts";
import { playSnippet, snippetOf } from "../sound/snippet.ts";

export function foundHits(found: Found): HTMLElement {
  if (found.found === 0) {
    return h(
      "p",
      { class: "empty" },
      "It is played nowhere there. Let a note differ, shorten the pattern, or listen for less: its ups and downs, or its rhythm alone.",
    );
  }
  const takes = new Set(found.hits.map((hit) => hit.take)).size;
  const shown = found.hits.length < found.found ? ` The closest ${found.hits.length} are listed.` : "";
  const groups = new Map<number, Hit[]>();
  for (const hit of found.hits) groups.set(hit.edits, [...(groups.get(hit.edits) ?? []), hit]);
  return h(
    "div",
    { class: "found" },
    h(
      "h2",
      { class: "found-head" },
      `${capital(count(found.found, "place"))} in ${count(takes, "take")}.${shown}`,
    ),
    ...[...groups].map(([edits, hits]) =>
      h(
        "section",
        {},
        h(
          "h3",
          {},
          edits === 0
            ? `Exactly: ${count(hits.length, "place")}`
            : `${capital(count(edits, "note"))} changed, added or left out: ${count(hits.length, "place")}`,
        ),
        h("ol", { class: "hits" }, ...hits.map((hit) => hitRow(hit, found.titles[hit.take] ?? hit.take))),
      ),
    ),
  );
}

function hitRow(hit: Hit, title: string): HTMLLIElement {
  const pitches = [...hit.before, ...hit.pitches, ...hit.after];
  const names = hitNames(hit);
  const from = hit.before.length;
  const to = from + hit.pitches.length;
  const trouble = h("span", { class: "hint", role: "status" });
  const listen = (first: number, last: number) => async () => {
    trouble.textContent = "";
    try {
      await playSnippet(snippetOf(pitches.slice(first, last), hit.onsets.slice(first, last)));
    } catch (error) {
      trouble.textContent = error instanceof Error ? error.message : String(error);
    }
  };
  const where = `${title}, ${placeInWords(hit)}`;
  return h(
    "li",
    { class: "hit", "data-take": hit.take, "data-note": hit.firstNote, "data-edits": hit.edits },
    drawMelody(
      pitches.map((pitch, i) => ({ pitch, at: hit.onsets[i] ?? i, within: i >= from && i < to })),
      220,
      `${where}: ${names.own}`,
    ),
    h(
      "div",
      {},
      h("a", { href: `#/takes/${hit.take}?note=${hit.firstNote}` }, where),
      h(
        "p",
        { class: "hit-notes" },
        h("span", { class: "faint" }, names.before),
        " ",
        h("strong", {}, names.own),
        " ",
        h("span", { class: "faint" }, names.after),
      ),
    ),
    h(
      "div",
      { class: "hit-tools" },
      h(
        "button",
        { type: "button", "aria-label": `Play ${where}`, onClick: () => void listen(from, to)() },
        "Play",
      ),
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          "aria-label": `${where}, with context`,
          onClick: () => void listen(0, pitches.length)(),
        },
        "with context",
      ),
      trouble,
    ),
  );
}
