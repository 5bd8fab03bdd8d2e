/** Lessons that were handed out to a player without a take. */
import { randomUUID } from "node:crypto";
import type { Lens } from "../../src/account.ts";
import type { HandShape } from "../../src/hands/index.ts";
import type { LessonWish } from "../../src/practice/index.ts";
import type { Database, Queryable } from "./database.ts";
import { markErasure } from "./erase.ts";

/** What a lesson is made of, kept whole: a shape or a lens that is changed later changes nothing that was handed out. */
export interface KeptWish {
  readonly chart: string;
  readonly level: LessonWish["level"];
  readonly feel: LessonWish["feel"];
  readonly shapes: readonly HandShape[];
  readonly lens: Lens | null;
}

export interface LessonRow {
  readonly id: string;
  readonly title: string;
  /** ISO date. */
  readonly handedOn: string;
  readonly createdAt: string;
  readonly wish: KeptWish;
}

const COLUMNS = `id, title, to_char(handed_on, 'YYYY-MM-DD') as "handedOn", wish,
  to_char(created_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "createdAt"`;

/** One for each player, or none at all. */
export function handOut(
  database: Database,
  players: readonly string[],
  lesson: { readonly title: string; readonly handedOn: string; readonly wish: KeptWish },
): Promise<{ id: string; player: string }[]> {
  return database.transaction(async (inside) => {
    const made: { id: string; player: string }[] = [];
    for (const player of players) {
      const id = randomUUID();
      await inside.query(
        "insert into lessons (id, player_id, title, handed_on, wish) values ($1, $2, $3, $4::date, $5::jsonb)",
        [id, player, lesson.title, lesson.handedOn, JSON.stringify(lesson.wish)],
      );
      made.push({ id, player });
    }
    return made;
  });
}

/** Of a player, the newest first. */
export function lessonsOf(database: Queryable, player: string): Promise<LessonRow[]> {
  return database.query<LessonRow>(
    `select ${COLUMNS} from lessons where player_id = $1 order by handed_on desc, created_at desc, id`,
    [player],
  );
}

export async function findLesson(database: Queryable, player: string, id: string): Promise<LessonRow | null> {
  const rows = await database.query<LessonRow>(
    `select ${COLUMNS} from lessons where player_id = $1 and id = $2
       and exists (select 1 from players p where p.id = $1 and p.deleted_at is null)`,
    [player, id],
  );
  return rows[0] ?? null;
}

export async function takeBack(database: Queryable, player: string, id: string): Promise<boolean> {
  const rows = await database.query("delete from lessons where player_id = $1 and id = $2 returning id", [
    player,
    id,
  ]);
  if (rows.length > 0) await markErasure(database);
  return rows.length > 0;
}

/** A take that may answer a lesson: of the player, standing alone. */
export interface Candidate {
  readonly id: string;
  readonly title: string;
  readonly date: string | null;
  /** The chart that was given with it; null where it has its own. */
  readonly chartText: string | null;
}

/** Takes of a player that were kept after a lesson was handed out, the first one first. */
export function takesSince(database: Queryable, player: string, lesson: string): Promise<Candidate[]> {
  return database.query<Candidate>(
    `select t.id, t.title, to_char(t.played_on, 'YYYY-MM-DD') as date, t.chart_text as "chartText"
     from takes t
     join lessons l on l.id = $2 and l.player_id = t.player_id
     where t.player_id = $1 and t.deleted_at is null and t.corpus_id is null and t.created_at >= l.created_at
     order by t.created_at, t.id`,
    [player, lesson],
  );
}
