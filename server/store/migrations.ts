/** The tables, step by step. A step that has landed is never changed; a new one is added. */
import type { Database, Queryable } from "./database.ts";
import { oneAtATime } from "./one-at-a-time.ts";

const STEPS: readonly (readonly string[])[] = [
  [
    // Things done once in the life of a store.
    `create table marks (name text primary key)`,
    `create table players (
       id text primary key, name text not null, note text not null default '',
       created_at timestamptz not null default now(), deleted_at timestamptz)`,
    `create table charts (
       id text primary key, name text not null, text text not null,
       created_at timestamptz not null default now(), deleted_at timestamptz)`,
    `create table shapes (
       id text primary key, name text not null, shape jsonb not null,
       created_at timestamptz not null default now(), deleted_at timestamptz)`,
    `create table ideas (
       id text primary key, name text not null, pattern jsonb not null,
       created_at timestamptz not null default now(), deleted_at timestamptz)`,
    // Sources are kept as they came, by content.
    `create table sources (sha256 text primary key, bytes bytea not null, created_at timestamptz not null default now())`,
    // An analysis is a pure function of its key (source, chart, options, version): a row that can be made again.
    `create table analyses (
       key text primary key, version text not null, facts jsonb not null, account bytea not null,
       created_at timestamptz not null default now())`,
    `create table takes (
       id text primary key, source text not null references sources(sha256), file_name text not null,
       player_id text references players(id), title text not null, played_on date, chart_text text,
       options jsonb not null default '{}', tags text[] not null default '{}', demo boolean not null default false,
       feedback jsonb not null default '{}',
       analysis text not null references analyses(key),
       created_at timestamptz not null default now(), deleted_at timestamptz)`,
    `create index takes_player on takes (player_id)`,
    `create index takes_source on takes (source)`,
    `create index takes_analysis on takes (analysis)`,
  ],
  [
    `create table corpora (
       id text primary key, name text not null, note text not null default '',
       created_at timestamptz not null default now(), deleted_at timestamptz)`,
    `alter table takes add column corpus_id text references corpora(id)`,
    `create index takes_corpus on takes (corpus_id)`,
    `create table jobs (
       id text primary key, corpus_id text not null references corpora(id) on delete cascade,
       cancelled boolean not null default false, total int not null,
       created_at timestamptz not null default now(), finished_at timestamptz)`,
    // One row a file of a job; the take that comes of it has the same id, so that it cannot come twice.
    `create table items (
       id text primary key, job_id text not null references jobs(id) on delete cascade,
       corpus_id text not null references corpora(id) on delete cascade,
       place int not null, file_name text not null, source text references sources(sha256),
       title text not null, player text, played_on date, chart_text text, options jsonb not null, tags text[] not null,
       state text not null default 'waiting' check (state in ('waiting', 'done', 'failed', 'cancelled')),
       attempts int not null default 0, problem jsonb, finished_at timestamptz)`,
    `create index items_job on items (job_id, state)`,
    `create index items_corpus on items (corpus_id, state)`,
    `create index items_source on items (source)`,
    // What corpus summaries are made of: notes of an analysis by chord and role.
    `create table tallies (
       key text not null references analyses(key) on delete cascade, chord text not null, role text not null,
       line_role text not null, notes int not null)`,
    `create index tallies_key on tallies (key)`,
    // Ideas of each analysis, for the vocabulary of a corpus.
    `create table ideas_found (
       key text not null references analyses(key) on delete cascade, viewpoint text not null, pattern text not null,
       length int not null, occurrences int not null)`,
    `create index ideas_found_key on ideas_found (key)`,
    // Pitches and positions of the solo, compact, for searching a corpus without opening accounts.
    `create table lines (
       key text primary key references analyses(key) on delete cascade, line bytea not null)`,
  ],
  [
    `create table tokens (
       id text primary key, name text not null, role text not null, scope text[] not null, hash text not null unique,
       created_at timestamptz not null default now(), ended_at timestamptz)`,
  ],
  [
    // Tables of an account as blocks of columns, from which tables of a corpus are written.
    `create table blocks (
       key text not null references analyses(key) on delete cascade, name text not null, block bytea not null,
       primary key (key, name))`,
    // These come compressed; the store need not try again.
    `alter table blocks alter column block set storage external`,
    `alter table analyses alter column account set storage external`,
    `alter table lines alter column line set storage external`,
    // Pages of a corpus in the order of its takes.
    `create index takes_corpus_page on takes (corpus_id, id)`,
  ],
  [
    // How often its analysis itself broke off, which is not how often it was begun: workers are also stopped from outside.
    `alter table items add column faults int not null default 0`,
  ],
  [
    // Lines as a search reads them, a few bytes a note; null for analyses from before, whose whole lines are packed when
    // they are read.
    `alter table lines add column packed bytea`,
    `alter table lines alter column packed set storage external`,
  ],
  [
    // When a token ends by itself; null for never.
    `alter table tokens add column expires_at timestamptz`,
  ],
  [
    // Recordings of sound, kept only where the teacher chose so; they go with their take.
    `create table sounds (
       take_id text primary key references takes(id) on delete cascade, file_name text not null, bytes bytea not null)`,
    `alter table sounds alter column bytes set storage external`,
  ],
  [
    // An empty list of shapes used to mean that none was chosen; now it asks for no shape, and absence leaves it open.
    `update takes set options = options - 'shapes' where options -> 'shapes' = '[]'::jsonb`,
    `update items set options = options - 'shapes' where options -> 'shapes' = '[]'::jsonb`,
  ],
  [
    // What a player's page holds: what is usual for them, when their parents consented, what they work on since when,
    // and notes for the parents. All of it goes with the player.
    `alter table players add column usual jsonb not null default '{}'`,
    `alter table players add column consent jsonb`,
    `create table player_lenses (
       player_id text not null references players(id) on delete cascade, since date not null, lens jsonb,
       primary key (player_id, since))`,
    `create table player_notes (
       id text primary key, player_id text not null references players(id) on delete cascade,
       written_on date not null, text text not null, created_at timestamptz not null default now())`,
    `create index player_notes_player on player_notes (player_id)`,
    // Lenses of the teacher's own.
    `create table lenses (
       id text primary key, name text not null, lens jsonb not null,
       created_at timestamptz not null default now(), deleted_at timestamptz)`,
  ],
  [
    // The key that a take was sent under, so that one sent again after a lost answer is known, and what was sent.
    `alter table takes add column sent_key text unique`,
    `alter table takes add column sent_hash text`,
  ],
  // Statistics hold samples of a column's values, and outlive them: none of what may name a person. Naming the type
  // again drops what was sampled before.
  Object.entries({
    players: { name: "text", note: "text", usual: "jsonb", consent: "jsonb" },
    player_notes: { text: "text" },
    player_lenses: { lens: "jsonb" },
    takes: {
      ...{ file_name: "text", title: "text", chart_text: "text", options: "jsonb", tags: "text[]" },
      ...{ feedback: "jsonb", sent_key: "text" },
    },
    items: {
      ...{
        file_name: "text",
        title: "text",
        player: "text",
        chart_text: "text",
        options: "jsonb",
        tags: "text[]",
      },
      problem: "jsonb",
    },
    tokens: { name: "text" },
    sources: { bytes: "bytea" },
    sounds: { file_name: "text", bytes: "bytea" },
    analyses: { facts: "jsonb", account: "bytea" },
    lines: { line: "bytea", packed: "bytea" },
    blocks: { block: "bytea" },
    charts: { name: "text", text: "text" },
    shapes: { name: "text", shape: "jsonb" },
    ideas: { name: "text", pattern: "jsonb" },
    lenses: { name: "text", lens: "jsonb" },
    corpora: { name: "text", note: "text" },
  }).flatMap(([table, columns]) =>
    Object.entries(columns).flatMap(([column, type]) => [
      `alter table ${table} alter column ${column} type ${type}`,
      `alter table ${table} alter column ${column} set statistics 0`,
    ]),
  ),
  [
    // Which workers live, for servers that have none of their own.
    `create table workers (id text primary key, seen_at timestamptz not null)`,
  ],
  [
    // Lessons that were handed out without a take, and wait for one. They go with their player.
    `create table lessons (
       id text primary key, player_id text not null references players(id) on delete cascade, title text not null,
       handed_on date not null, wish jsonb not null, created_at timestamptz not null default now())`,
    `create index lessons_player on lessons (player_id)`,
    `alter table lessons alter column title set statistics 0`,
    `alter table lessons alter column wish set statistics 0`,
  ],
  [
    // A file that is in its corpus already, byte for byte, is left out unless it was asked for twice: the hash of what
    // was sent (a recording's source becomes the notes heard in it), and the item that counts in its place.
    `alter table items add column sent_source text, add column same_as text`,
    `update items set sent_source = source`,
    `create index items_sent on items (corpus_id, sent_source)`,
    `alter table items drop constraint items_state_check`,
    `alter table items add constraint items_state_check
       check (state in ('waiting', 'done', 'failed', 'cancelled', 'repeated'))`,
    // Pages of a corpus in the order of what was played.
    `create index takes_corpus_order on takes (corpus_id, source, analysis, id)`,
  ],
  [
    // Who read and wrote what of persons: ids alone, so that it may stay when a person is deleted.
    `create table audit (
       id text primary key, at timestamptz not null default now(), token text, role text not null, action text not null,
       route text not null, about text, status int not null, times int not null)`,
    `create index audit_at on audit (at, id)`,
    `create index audit_about on audit (about, at)`,
    // Whose a row is: the id of the token that made it; null for the owner at the machine itself.
    ...["charts", "shapes", "ideas", "lenses", "takes", "jobs"].map(
      (table) => `alter table ${table} add column made_by text`,
    ),
    `create index takes_made_by on takes (made_by)`,
    // What a token may keep; null for what the settings say.
    `alter table tokens add column most_takes int`,
    `alter table tokens add column most_mb float8`,
  ],
  [
    // Reads and writes are not enough: that a take was deleted, and not renamed, is told by the method.
    `alter table audit add column method text not null default ''`,
    // Ids outlive what they were of here, and need not do so in statistics too.
    `alter table audit alter column about set statistics 0`,
  ],
  [
    // Large sources in pieces; what stands in `sources.bytes` is whole where there is no size.
    `alter table sources add column size int`,
    `create table source_pieces (source text not null references sources on delete cascade, place int not null,
       bytes bytea not null, primary key (source, place))`,
    // What is so large is a recording, which packing makes no smaller.
    `alter table source_pieces alter column bytes set storage external`,
  ],
];

/** Number of steps to the tables of today. */
export const STEP_COUNT = STEPS.length;

/** Brings the store to the newest step. Safe to call by several processes at once on a PostgreSQL server. */
export async function migrate(database: Database): Promise<void> {
  await oneAtATime(database, () => database.transaction((inside) => takeSteps(inside)));
}

/** Takes the steps that the store lacks, in the caller's transaction. @param most number of steps to stop after */
export async function takeSteps(inside: Queryable, most = STEP_COUNT): Promise<void> {
  await inside.query("create table if not exists migrations (step int primary key)");
  const done = await inside.query<{ step: number }>("select step from migrations");
  const landed = new Set(done.map((row) => row.step));
  for (const [step, statements] of STEPS.slice(0, most).entries()) {
    if (landed.has(step)) continue;
    for (const statement of statements) await inside.query(statement);
    await inside.query("insert into migrations (step) values ($1)", [step]);
  }
}
