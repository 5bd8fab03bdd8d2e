import { type Column, listCell } from "../../src/export/index.ts";

/** What leads every row of a corpus table: which take it is of. */
export interface TakeCells {
  readonly take: string;
  readonly title: string;
  readonly player: string | null;
  readonly date: string | null;
  readonly tags: readonly string[];
  readonly key: string;
  readonly tempo: number | null;
}

export const TAKE_COLUMNS: readonly Column<TakeCells>[] = [
  { name: "take", type: "text", value: (row) => row.take },
  { name: "title", type: "text", value: (row) => row.title },
  { name: "player", type: "text", value: (row) => row.player },
  { name: "date", type: "date", value: (row) => row.date },
  { name: "tags", type: "list", value: (row) => listCell(row.tags) },
  { name: "chartKey", type: "text", value: (row) => row.key },
  { name: "tempo", type: "number", value: (row) => row.tempo },
];
