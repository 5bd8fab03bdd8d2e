/** The players as rows: how many takes, the newest one, the lens of today and how far it is reached. */
import type { ClassPlayer } from "../contract/class.ts";
import type { Queryable } from "./database.ts";

/** Where no day is known, a take counts as played on the day on which it was kept. */
const PLAYED = "coalesce(t.played_on, (t.created_at at time zone 'UTC')::date)";

const STANDING_ALONE = "t.player_id = p.id and t.deleted_at is null and t.corpus_id is null";

/** A row without the lessons that wait, which the chords of the takes tell. */
type Row = Omit<ClassPlayer, "lens" | "waiting"> & {
  /** Number of lessons handed out, answered or not. */
  readonly lessons: number;
  readonly lens: (Omit<Lens, "now" | "before"> & { readonly states: readonly Lens["now"][] }) | null;
};
type Lens = NonNullable<ClassPlayer["lens"]>;

/** All players, by name; of their lessons only how many there are. */
export async function classOf(
  database: Queryable,
): Promise<(Omit<ClassPlayer, "waiting"> & Pick<Row, "lessons">)[]> {
  const rows = await database.query<Row>(
    `select p.id, p.name, own.takes, own.demo, lens.it as lens, last.it as last,
       (select count(*)::int from lessons where player_id = p.id) as lessons
     from players p
     cross join lateral (
       select count(*)::int as takes, coalesce(bool_and(t.demo), false) as demo from takes t
       where ${STANDING_ALONE}) own
     left join lateral (
       select json_build_object('id', t.id, 'title', t.title, 'date', to_char(${PLAYED}, 'YYYY-MM-DD')) as it
       from takes t where ${STANDING_ALONE} order by ${PLAYED} desc, t.created_at desc limit 1) last on true
     left join lateral (
       select case when l.lens is not null then json_build_object('name', l.lens ->> 'name',
         'since', to_char(l.since, 'YYYY-MM-DD'),
         'takes', (select count(*) from takes t where ${STANDING_ALONE} and ${PLAYED} >= l.since),
         'states', array(
           select a.facts -> 'lens' ->> 'state' from takes t join analyses a on a.key = t.analysis
           where ${STANDING_ALONE} and ${PLAYED} >= l.since
             and a.facts -> 'lens' ->> 'id' = l.lens ->> 'id'
           order by ${PLAYED} desc, t.created_at desc limit 2)) end as it
       from player_lenses l where l.player_id = p.id and l.since <= current_date
       order by l.since desc limit 1) lens on true
     where p.deleted_at is null
     order by lower(p.name), p.id`,
  );
  return rows.map(({ lens, ...row }) => {
    if (lens === null) return { ...row, lens };
    const { states, ...rest } = lens;
    return { ...row, lens: { ...rest, now: states[0] ?? null, before: states[1] ?? null } };
  });
}
