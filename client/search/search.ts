/** Where is it played? A pattern in one take, a player's takes, all of them, or a corpus, the closest places first. */
import type { AskedNote } from "../../server/contract/pattern.ts";
import { count, placeInWords } from "../../src/words/index.ts";
import { keyboardInput } from "../draw/keyboard-input.ts";
import { listenToKeys } from "../record/key-input.ts";
import { indexAccount } from "../shell/account-index.ts";
import { players, takes } from "../shell/api.ts";
import { corpora } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { ideas, searchFor } from "../shell/ideas.ts";
import type { PageMaker } from "../shell/page.ts";
import { playSnippet, stopSnippet } from "../sound/snippet.ts";
import { keepFound } from "./keep-found.ts";
import {
  type AskedPattern,
  askedPattern,
  type PatternState,
  type PickedNotes,
  strike,
} from "./pattern-model.ts";
import { searchDrawing } from "./search-drawing.ts";
import {
  addressOf,
  firstSearch,
  isAsked,
  searched,
  searching,
  searchPlace,
  searchRefused,
} from "./search-model.ts";

const LIMIT = 100;

/** An octave below middle C, and two above. */
const BOARD = { low: 48, high: 84, label: "Keyboard: play the pattern", role: "button" } as const;

export const searchPage: PageMaker = async (_parameters, query, shell) => {
  const [ideaRows, takeRows, playerRows, corpusRows] = await Promise.all([
    ideas.list(),
    takes.list(),
    players(),
    corpora.list(),
  ]);
  const rows = { ideas: ideaRows, takes: takeRows, players: playerRows, corpora: corpusRows };
  const first = firstSearch(query, ideaRows, await pickedFrom(query));
  const host = h("div", { class: "stack" });
  const board = keyboardInput(BOARD, press);
  const { state, change } = drawnFrom(host, first, (now, next) =>
    searchDrawing(now, rows, board, {
      change: next,
      search: () => void search(),
      keeper: ({ pattern }) => keepFound(pattern, shell),
    }),
  );
  const changePattern = (next: (now: PatternState) => PatternState) =>
    change((now) => ({ ...now, pattern: next(now.pattern) }));
  const endKeys = listenToKeys(
    ({ pitch, velocity }) => {
      if (state().pattern.way === "play" && velocity > 0) press(pitch);
    },
    (lowestKey) => changePattern((now) => ({ ...now, lowestKey })),
  );

  function press(pitch: number): void {
    changePattern((now) => strike(now, pitch));
    // Where no sound can be had, the key still counts.
    void playSnippet([{ pitch, at: 0, seconds: 0.4 }]).catch(() => {});
  }

  async function search(): Promise<void> {
    change(searching);
    const asked = state();
    try {
      const { corpus, takes: among } = searchPlace(asked);
      const what = await withDegrees(askedPattern(asked.pattern, ideaRows));
      const how = { viewpoint: asked.pattern.viewpoint, maxEdits: asked.edits, limit: LIMIT };
      const found = await searchFor({ ...how, ...what, ...among }, corpus);
      shell.replaceQuery(addressOf(found.pattern, asked));
      change((now) => searched(now, found));
    } catch (error) {
      change((now) => searchRefused(now, error));
    }
  }

  if (isAsked(first)) await search();
  return {
    title: "Search",
    element: host,
    end() {
      endKeys();
      stopSnippet();
    },
  };
};

/** The pattern as a search takes it; degrees are those on the chord that was named. */
async function withDegrees(
  asked: AskedPattern,
): Promise<{ symbols: (number | string)[] } | { notes: AskedNote[] }> {
  if ("symbols" in asked) return { symbols: [...asked.symbols] };
  if (asked.over === null) return { notes: [...asked.notes] };
  const [{ parseChord }, { degreeOn }] = await Promise.all([
    import("../../src/chart/index.ts"),
    import("../../src/hands/placements.ts"),
  ]);
  const chord = parseChord(asked.over);
  const degree = (pitch: number) => (chord === null ? null : degreeOn(chord, pitch));
  return { notes: asked.notes.map((note) => ({ ...note, degree: degree(note.pitch) })) };
}

/** The notes that "from" and "to" of a take mean. */
async function pickedFrom(query: URLSearchParams): Promise<PickedNotes | null> {
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
