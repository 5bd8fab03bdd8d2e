/** Players, charts and the teacher's own shapes, ideas and lenses: small rows with a name, deleted with a way back. */
import { randomUUID } from "node:crypto";
import type { Lens } from "../../src/account.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import type { MotifPattern } from "../../src/motif/index.ts";
import type { Queryable } from "./database.ts";

export interface Player {
  readonly id: string;
  readonly name: string;
  readonly note: string;
}

/** Of rows that belong to whoever made them. */
interface Made {
  /** Id of the token that made it; null for the owner at the machine itself. */
  readonly madeBy: string | null;
}

export interface StoredChart extends Made {
  readonly id: string;
  readonly name: string;
  readonly text: string;
}

export interface StoredShape extends Made {
  readonly id: string;
  readonly name: string;
  readonly shape: HandShape;
}

/** A motif that someone has named, to be found again. */
export interface StoredIdea extends Made {
  readonly id: string;
  readonly name: string;
  readonly pattern: MotifPattern;
}

/** A lens of the teacher's own. */
export interface StoredLens extends Made {
  readonly id: string;
  readonly name: string;
  readonly lens: Lens;
}

/** What a row of each kind holds. */
export interface Kinds {
  players: Player;
  charts: StoredChart;
  shapes: StoredShape;
  ideas: StoredIdea;
  lenses: StoredLens;
}

export type Kind = keyof Kinds;

const COLUMNS: Record<Kind, readonly string[]> = {
  players: ["name", "note"],
  charts: ["name", "text"],
  shapes: ["name", "shape"],
  ideas: ["name", "pattern"],
  lenses: ["name", "lens"],
};

/** What is read of a kind: players are of no one token, but within the reach of some. */
function selected(kind: Kind): string {
  return ["id", ...COLUMNS[kind], ...(kind === "players" ? [] : ['made_by as "madeBy"'])].join(", ");
}

const JSON_COLUMNS: ReadonlySet<string> = new Set(["shape", "pattern", "lens"]);

export async function listRows<K extends Kind>(database: Queryable, kind: K): Promise<Kinds[K][]> {
  return database.query<Kinds[K]>(
    `select ${selected(kind)} from ${kind} where deleted_at is null order by lower(name), id`,
  );
}

export async function findRow<K extends Kind>(
  database: Queryable,
  kind: K,
  id: string,
): Promise<Kinds[K] | null> {
  const rows = await database.query<Kinds[K]>(
    `select ${selected(kind)} from ${kind} where id = $1 and deleted_at is null`,
    [id],
  );
  return rows[0] ?? null;
}

export async function createRow<K extends Kind>(
  database: Queryable,
  kind: K,
  values: Omit<Kinds[K], "id" | "madeBy"> & { readonly id?: string; readonly madeBy?: string | null },
): Promise<string> {
  const id = values.id ?? randomUUID();
  const columns = [...COLUMNS[kind], ...(kind === "players" ? [] : ["made_by"])];
  await database.query(
    `insert into ${kind} (id, ${columns.join(", ")}) values ($1, ${columns.map((_, i) => `$${i + 2}`).join(", ")})`,
    [id, ...columns.map((column) => columnValue(values, column))],
  );
  return id;
}

export async function changeRow<K extends Kind>(
  database: Queryable,
  kind: K,
  id: string,
  change: Partial<Omit<Kinds[K], "id" | "madeBy">>,
): Promise<void> {
  const columns = COLUMNS[kind].filter((column) => change[column as keyof typeof change] !== undefined);
  if (columns.length === 0) return;
  const set = columns.map((column, i) => `${column} = $${i + 2}`).join(", ");
  const values = columns.map((column) => columnValue(change, column));
  await database.query(`update ${kind} set ${set} where id = $1`, [id, ...values]);
}

export async function deleteRow(database: Queryable, kind: Kind, id: string): Promise<boolean> {
  const rows = await database.query(
    `update ${kind} set deleted_at = now() where id = $1 and deleted_at is null returning id`,
    [id],
  );
  return rows.length > 0;
}

export async function restoreRow(database: Queryable, kind: Kind, id: string): Promise<boolean> {
  const rows = await database.query(
    `update ${kind} set deleted_at = null where id = $1 and deleted_at is not null returning id`,
    [id],
  );
  return rows.length > 0;
}

/** Who made a row, deleted or not; undefined when there is none. */
export async function madeByOf(
  database: Queryable,
  kind: Exclude<Kind, "players">,
  id: string,
): Promise<string | null | undefined> {
  const rows = await database.query<Made>(`select made_by as "madeBy" from ${kind} where id = $1`, [id]);
  return rows[0]?.madeBy;
}

/** The player of that name, made when there is none; in a transaction, so that two who ask at once make one player. */
export async function playerNamed(inside: Queryable, name: string): Promise<string> {
  const known = await playerIdNamed(inside, name);
  if (known !== null) return known;
  await inside.query("select pg_advisory_xact_lock(hashtextextended('player ' || lower($1), 0))", [name]);
  return (await playerIdNamed(inside, name)) ?? (await createRow(inside, "players", { name, note: "" }));
}

/** The eldest player of that name, in whatever case; null when there is none. */
export async function playerIdNamed(database: Queryable, name: string): Promise<string | null> {
  const rows = await database.query<{ id: string }>(
    "select id from players where lower(name) = lower($1) and deleted_at is null order by created_at limit 1",
    [name],
  );
  return rows[0]?.id ?? null;
}

function columnValue(values: object, column: string): unknown {
  const value = (values as Record<string, unknown>)[column === "made_by" ? "madeBy" : column] ?? null;
  return JSON_COLUMNS.has(column) ? JSON.stringify(value) : value;
}
