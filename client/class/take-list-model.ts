/** The list of takes as a state: what is typed, how it is sorted, and the pages that have come. */
import type { TakePage, TakeRow } from "../../server/contract/takes.ts";
import { count, withAccidentals } from "../../src/words/index.ts";
import { day } from "../shell/words.ts";

export const TAKE_SORTS = {
  newest: "Newest first",
  oldest: "Oldest first",
  title: "By title",
  player: "By player",
} as const;

export type TakeSort = keyof typeof TAKE_SORTS;

/** Takes of a page: more than a screen shows, few enough to come at once. */
const PAGE = 50;
/** The most that the server gives at once. */
const MOST = 500;

export interface TakeListState {
  readonly typed: string;
  readonly sort: TakeSort;
  /** Whether the demo class is shown. */
  readonly demo: boolean;
  readonly rows: readonly TakeRow[];
  /** All that are found, on this page or not. */
  readonly total: number;
  readonly next: string | null;
  readonly refused: unknown;
  /** True until the answer to what is asked now is there: what is shown answers an earlier question. */
  readonly searching: boolean;
  /** Takes that are chosen to be changed together, by id; they stay chosen when something else is looked for. */
  readonly chosen: ReadonlyMap<string, TakeRow>;
  /** How many of the chosen ones are done; null while nothing is under way. */
  readonly under: { readonly done: number; readonly of: number } | null;
}

export const emptyList = (demo: boolean): TakeListState => ({
  ...{ typed: "", sort: "newest", demo, rows: [], total: 0, next: null, refused: null },
  ...{ searching: false, chosen: new Map(), under: null },
});

/** What is asked of the server: the first page, as long as what is shown already, or the one after it. */
export function listQuery({ typed, sort, demo, rows }: TakeListState, after: string | null = null): string {
  const shown = after === null ? Math.min(MOST, Math.max(PAGE, rows.length)) : PAGE;
  const query = new URLSearchParams({ sort, limit: String(shown) });
  if (typed.trim() !== "") query.set("q", typed.trim());
  if (!demo) query.set("demo", "false");
  if (after !== null) query.set("after", after);
  return query.toString();
}

/** Another question starts at its first page; what was found before stays until the answer is there. */
export function asking(
  state: TakeListState,
  question: Partial<Pick<TakeListState, "typed" | "sort" | "demo">>,
): TakeListState {
  return { ...state, ...question, next: null, refused: null, searching: true };
}

/** An answer counts only where its question still stands: a slow one never covers the one typed after it. */
export function answered(
  state: TakeListState,
  to: TakeListState,
  page: TakePage,
  more: boolean,
): TakeListState {
  if (state.typed !== to.typed || state.sort !== to.sort || state.demo !== to.demo) return state;
  const rows = more ? [...state.rows, ...page.takes] : page.takes;
  // What was changed meanwhile is changed further from what it is now.
  const fresh = page.takes.filter(({ id }) => state.chosen.has(id)).map((row) => [row.id, row] as const);
  const chosen = fresh.length === 0 ? state.chosen : new Map([...state.chosen, ...fresh]);
  return { ...state, rows, chosen, total: page.total, next: page.next, refused: null, searching: false };
}

/** Nothing is counted that answers an earlier question. */
export function foundWords({ typed, total, searching, refused }: TakeListState): string {
  if (searching) return refused === null ? "Looking …" : "";
  if (typed.trim() === "") return count(total, "take");
  return total === 0 ? "Nothing found." : `${count(total, "take")} found`;
}

export function moreWords({ rows, total }: TakeListState): string {
  const left = total - rows.length;
  return left <= PAGE ? `Show the other ${left}` : `Show ${PAGE} more of ${left}`;
}

export const takeName = (row: TakeRow): string => row.title || row.chartName || "Untitled take";

/** One line of what a take is, without what is not known. */
export function takeFacts(row: TakeRow): string {
  return [
    row.player,
    row.chartName,
    row.key ? withAccidentals(row.key) : null,
    count(row.choruses, "chorus", "choruses"),
    `${row.notes} notes`,
    row.method,
    // A tag that says how bars were found says it once more.
    ...row.tags.filter((tag) => tag !== row.method),
  ]
    .filter(Boolean)
    .join(" · ");
}

/** What takes next to each other have in common in this order: their player, or the month in which they were played. */
export function groupOf({ player, date, title }: TakeRow, sort: TakeSort): string {
  switch (sort) {
    case "player":
      return player ?? "No player";
    case "newest":
    case "oldest":
      return date === null ? "Without a date" : day(date).replace(/^\d+ /, "");
    case "title":
      return (title || "Untitled take").charAt(0).toUpperCase();
  }
}
