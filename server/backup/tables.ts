/** What a backup holds of each table, in the order in which it can be put back: what is referred to comes first. */

export interface CopiedTable {
  readonly name: string;
  /** Columns that its rows are put in order by, so that the same rows have the same hash on every store. */
  readonly order: readonly string[];
  /** The column that names the content that its rows belong to, for tables that are large and never change. */
  readonly content?: string;
  /** Keys whose rows are read at once; 20 when left out. */
  readonly keysAtOnce?: number;
}

/**
 * Large tables whose rows follow from their key and never change: they are read piece by piece, while the store is at
 * work, for the keys that there were at the moment of the backup.
 */
export const CONTENT: readonly CopiedTable[] = [
  { name: "sources", order: ["sha256"], content: "sha256" },
  {
    name: "source_pieces",
    order: ["source", "place"],
    content: "(source || ' ' || place)",
    keysAtOnce: 1,
  },
  { name: "analyses", order: ["key"], content: "key" },
  { name: "lines", order: ["key"], content: "key" },
  { name: "blocks", order: ["key", "name"], content: "key" },
  { name: "tallies", order: ["key", "chord", "role", "line_role", "notes"], content: "key" },
  {
    name: "ideas_found",
    order: ["key", "viewpoint", "pattern", "length", "occurrences"],
    content: "key",
  },
];

/** All others: read in one moment. */
export const RECORDS: readonly CopiedTable[] = [
  { name: "marks", order: ["name"] },
  { name: "players", order: ["id"] },
  { name: "player_lenses", order: ["player_id", "since"] },
  { name: "player_notes", order: ["id"] },
  { name: "lessons", order: ["id"] },
  { name: "charts", order: ["id"] },
  { name: "shapes", order: ["id"] },
  { name: "ideas", order: ["id"] },
  { name: "lenses", order: ["id"] },
  { name: "corpora", order: ["id"] },
  { name: "jobs", order: ["id"] },
  { name: "items", order: ["id"] },
  { name: "takes", order: ["id"] },
  { name: "tokens", order: ["id"] },
  { name: "audit", order: ["id"] },
];

/** Recordings: large, and of takes that are among the records. */
export const SOUNDS: CopiedTable = { name: "sounds", order: ["take_id"], content: "take_id" };

export const COPIED: readonly CopiedTable[] = [...CONTENT, ...RECORDS, SOUNDS];

/** Of the running service alone, or told otherwise. */
export const NOT_COPIED: readonly string[] = ["migrations", "workers"];
