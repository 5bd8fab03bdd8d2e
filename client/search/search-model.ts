/** A search, as it is being asked: the pattern, how many notes may differ, where, and what came of it. */
import type { IdeaRow } from "../../server/contract/library.ts";
import type { Found, Pattern } from "../../server/contract/pattern.ts";
import { patternWords, VIEWPOINTS } from "../shell/ideas.ts";
import { firstPattern, type PatternState, type PickedNotes } from "./pattern-model.ts";

export interface SearchState {
  readonly pattern: PatternState;
  /** Number of notes that may be changed, added or left out. */
  readonly edits: number;
  /** "all", "player:ID", "corpus:ID" or "take:ID" */
  readonly within: string;
  readonly searching: boolean;
  readonly found: Found | null;
  readonly refused: unknown;
}

/** More of them would find anything. [practice] */
export const EDITS: readonly number[] = [0, 1, 2, 3, 4];

/** @param query an address, as `addressOf` makes it, or with an idea, or with notes of a take */
export function firstSearch(
  query: URLSearchParams,
  ideas: readonly IdeaRow[],
  picked: PickedNotes | null,
): SearchState {
  const pattern = firstPattern({
    viewpoint: VIEWPOINTS.find(({ id }) => id === query.get("viewpoint"))?.id ?? null,
    symbols: query.get("symbols") ?? "",
    idea: ideas.find(({ id }) => id === query.get("idea")) ?? null,
    picked,
    ideas,
  });
  const edits = EDITS.find((one) => String(one) === query.get("edits")) ?? 0;
  const within = query.get("in") ?? "all";
  return { pattern, edits, within, searching: false, found: null, refused: null };
}

/** Whether an address says all that a search needs: then it is searched at once. */
export function isAsked({ pattern }: SearchState): boolean {
  return pattern.way !== "play";
}

export function searching(state: SearchState): SearchState {
  return { ...state, searching: true, refused: null };
}

export function searched(state: SearchState, found: Found): SearchState {
  return { ...state, searching: false, found };
}

/** What was found before does not answer what was asked now. */
export function searchRefused(state: SearchState, refused: unknown): SearchState {
  return { ...state, searching: false, found: null, refused };
}

/** Where is looked: a corpus by its identifier, else the takes of a request. */
export function searchPlace({ within }: SearchState): {
  readonly corpus: string | null;
  readonly takes: { readonly take?: string; readonly player?: string };
} {
  const [kind, id] = within.split(/:(.*)/);
  if (!id) return { corpus: null, takes: {} };
  if (kind === "corpus") return { corpus: id, takes: {} };
  return { corpus: null, takes: kind === "take" ? { take: id } : kind === "player" ? { player: id } : {} };
}

/** The address of a search, so that it can be kept and sent. */
export function addressOf(pattern: Pattern, { edits, within }: SearchState): string {
  return new URLSearchParams({
    viewpoint: pattern.viewpoint,
    symbols: patternWords(pattern),
    edits: String(edits),
    in: within,
  }).toString();
}
