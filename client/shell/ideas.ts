/** Named ideas and searches in takes, as far as the pages need them. */
import type { IdeaRow } from "../../server/contract/library.ts";
import type { Found, Hit, Pattern, Question } from "../../server/contract/pattern.ts";
import type { MotifViewpoint } from "../../src/account.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { fetchJson } from "./api.ts";

export const VIEWPOINTS: readonly { readonly id: MotifViewpoint; readonly words: string }[] = [
  { id: "chromatic interval", words: "the steps between its notes" },
  { id: "interval and rhythm", words: "its steps and its rhythm" },
  { id: "degree", words: "its degrees on the chords" },
  { id: "contour", words: "its ups and downs" },
  { id: "rhythm", words: "its rhythm" },
  { id: "finger", words: "its fingers" },
];

/** A pattern without the number of its notes. */
type Symbols = Omit<Pattern, "notes">;

/** The notes of a hit and those around it, by the names that their account gives them. */
export function hitNames(hit: Hit): {
  readonly before: string;
  readonly own: string;
  readonly after: string;
} {
  const from = hit.before.length;
  const to = from + hit.pitches.length;
  const named = (start: number, end?: number) =>
    hit.spellings.slice(start, end).map(withAccidentals).join(" ");
  return { before: named(0, from), own: named(from, to), after: named(to) };
}

const json = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

export const ideas = {
  list: () => fetchJson<{ ideas: IdeaRow[] }>("/ideas").then((body) => body.ideas),
  create: (name: string, { viewpoint, symbols }: Symbols) =>
    fetchJson<IdeaRow>("/ideas", json("POST", { name, pattern: { viewpoint, symbols } })),
  rename: (id: string, name: string) => fetchJson<IdeaRow>(`/ideas/${id}`, json("PATCH", { name })),
  remove: (id: string) => fetchJson<unknown>(`/ideas/${id}`, { method: "DELETE" }),
  restore: (id: string) => fetchJson<unknown>(`/ideas/${id}/restore`, { method: "POST" }),
};

/** Looks in one take, a player's takes, all takes, or, when `corpus` is named, in a corpus. */
export function searchFor(question: Question, corpus: string | null): Promise<Found> {
  return fetchJson<Found>(corpus === null ? "/search" : `/corpora/${corpus}/search`, json("POST", question));
}

/** Ideas of several symbols in words are parted by a semicolon, since the symbols have spaces of their own. */
const WORDY: readonly MotifViewpoint[] = ["interval and rhythm", "rhythm", "contour"];

/** "+2 +2 -1", "+2, 0.5 beats; -1, 1 beat", "b3 9 1". */
export function patternWords({ viewpoint, symbols }: Symbols): string {
  const words = symbols.map((symbol) =>
    viewpoint === "chromatic interval" && typeof symbol === "number" && symbol > 0
      ? `+${symbol}`
      : String(symbol),
  );
  return words.join(WORDY.includes(viewpoint) ? "; " : " ");
}

/** Reads what `patternWords` writes. */
export function readPatternWords(text: string, viewpoint: MotifViewpoint): (number | string)[] {
  // A minus that was copied from the page is a minus.
  const plain = text.replaceAll("−", "-");
  const parts = WORDY.includes(viewpoint) ? plain.split(";") : plain.split(/[\s,;]+/);
  return parts
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .map((part) =>
      /^[+-]?\d+$/.test(part) && (viewpoint === "chromatic interval" || viewpoint === "finger")
        ? Number(part)
        : part,
    );
}
