/** What was deleted and can still be brought back, as the class page tells it. No page is needed for it. */
import type { DeletedOne } from "../../server/contract/deleted.ts";
import { count } from "../../src/words/index.ts";

export interface DeletedState {
  readonly rows: readonly DeletedOne[];
  /** Ids of those that are on their way back. */
  readonly coming: readonly string[];
  readonly refused: unknown;
}

export const NOTHING_DELETED: DeletedState = { rows: [], coming: [], refused: null };

export const read = (state: DeletedState, rows: readonly DeletedOne[]): DeletedState => ({ ...state, rows });

export const restoring = (state: DeletedState, id: string): DeletedState => ({
  ...state,
  ...{ coming: [...state.coming, id], refused: null },
});

/** It leaves the list at once; what the server has is read after it. */
export const restored = (state: DeletedState, id: string): DeletedState => ({
  ...state,
  ...{ rows: state.rows.filter((one) => one.id !== id), coming: state.coming.filter((one) => one !== id) },
});

export const refused = (state: DeletedState, id: string, error: unknown): DeletedState => ({
  ...state,
  ...{ coming: state.coming.filter((one) => one !== id), refused: error },
});

/** "Deleted lately: three takes and one player". */
export function headWords({ rows }: DeletedState): string {
  const takes = rows.filter(({ kind }) => kind === "take").length;
  const parts = [
    ...(takes > 0 ? [count(takes, "take")] : []),
    ...(takes < rows.length ? [count(rows.length - takes, "player")] : []),
  ];
  return `Deleted lately: ${parts.join(" and ")}`;
}

/**
 * "take of Ada · deleted at 14:02 · gone for good after 14:32"
 *
 * @param zone time zone of the clock that is read; that of the browser where it is left out
 */
export function deletedFacts({ kind, player, takes, deletedAt, goesAt }: DeletedOne, zone?: string): string {
  const clock = (at: string) =>
    new Date(at).toLocaleTimeString("en-GB", {
      ...{ hour: "2-digit", minute: "2-digit" },
      ...(zone === undefined ? {} : { timeZone: zone }),
    });
  return [
    kind === "player"
      ? `player, with ${count(takes, "take")}`
      : player === null
        ? "take"
        : `take of ${player}`,
    `deleted at ${clock(deletedAt)}`,
    `gone for good after ${clock(goesAt)}`,
  ].join(" · ");
}
