/** What both stores are to all others. */

export interface Queryable {
  /** Rows of one statement; `values` fill $1, $2, ... */
  query<Row = Record<string, unknown>>(text: string, values?: readonly unknown[]): Promise<Row[]>;
}

export interface Database extends Queryable {
  readonly kind: "embedded" | "server";
  /** Several statements without values, as migrations of the queue are. Rows of the last one. */
  script(text: string): Promise<Record<string, unknown>[]>;
  /** All or nothing; what `work` throws is thrown on after the roll-back. */
  transaction<T>(work: (inside: Queryable) => Promise<T>): Promise<T>;
  /** All that a PostgreSQL server holds, as it was at one moment, until `end`; the embedded store has none. */
  snapshot?(): Promise<{ readonly inside: Queryable; end(): Promise<void> }>;
  /** Free bytes on the disk of the embedded store; null where it is in memory, and for a server, which says so itself. */
  room(): number | null;
  close(): Promise<void>;
}
