/** Changes of a kept take: each is laid over what the take is now, not over what its page showed. */
import type { AnalyseOptionsInput, Correction } from "../../src/account.ts";
import type { Analyst } from "../analysis/analyst.ts";
import { HttpProblem, notFound } from "../errors.ts";
import type { Database } from "./database.ts";
import { analysisOf, findTake, type StoredTake } from "./takes.ts";

export interface TakeChange {
  readonly title?: string | undefined;
  readonly date?: string | null | undefined;
  readonly playerId?: string | null | undefined;
  readonly tags?: readonly string[] | undefined;
  readonly chartText?: string | null | undefined;
  readonly options?: AnalyseOptionsInput | undefined;
  /** Corrections of single notes, each in the place of what was said of its note before; one that says nothing undoes. */
  readonly correct?: readonly Correction[] | undefined;
}

/** An analysis takes seconds at most; whoever is overtaken so often stands in a queue that does not end. */
const ATTEMPTS = 5;

/**
 * Changes what is given; a changed chart or option is analysed anew before anything is stored. When somebody else
 * changed the chart or the options meanwhile, the change is laid over theirs.
 *
 * @throws HttpProblem 409 `changed-meanwhile` when others change the take all the while, 404 when it is gone
 */
export async function changeTake(
  database: Database,
  analyst: Analyst,
  take: StoredTake,
  change: TakeChange,
): Promise<void> {
  let now: StoredTake | null = take;
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    if (now === null) throw notFound("take", take.id);
    if (await tryChange(database, analyst, now, change)) return;
    now = await findTake(database, take.id);
  }
  throw new HttpProblem(
    409,
    "changed-meanwhile",
    "Others change this take at the same time",
    null,
    "Look at what they changed, and send the change again.",
  );
}

/** False when the take's chart or options are not those any more that the change was laid over. */
async function tryChange(
  database: Database,
  analyst: Analyst,
  take: StoredTake,
  change: TakeChange,
): Promise<boolean> {
  const chartText = change.chartText === undefined ? take.chartText : change.chartText;
  const given = { ...take.options, ...change.options };
  const options =
    change.correct === undefined
      ? given
      : { ...given, corrections: withCorrections(given.corrections ?? [], change.correct) };
  const analysis = await analysisOf(database, analyst, take, chartText, options);
  const rows = await database.query(
    `update takes set title = $2, played_on = $3::date, player_id = $4, tags = $5::text[], chart_text = $6,
       options = $7::jsonb, analysis = $8
     where id = $1 and deleted_at is null and options = $9::jsonb and chart_text is not distinct from $10::text
     returning id`,
    [
      take.id,
      change.title ?? take.title,
      change.date === undefined ? take.date : change.date,
      change.playerId === undefined ? take.playerId : change.playerId,
      [...(change.tags ?? take.tags)],
      chartText,
      JSON.stringify(options),
      analysis,
      JSON.stringify(take.options),
      take.chartText,
    ],
  );
  return rows.length > 0;
}

type Corrections = NonNullable<AnalyseOptionsInput["corrections"]>;

function withCorrections(before: Corrections, changes: readonly Correction[]): Corrections {
  const byNote = new Map(before.map((one) => [one.note, one]));
  for (const change of changes) {
    if (Object.values(change).filter((value) => value !== undefined).length === 1) byNote.delete(change.note);
    else byNote.set(change.note, change);
  }
  return [...byNote.values()];
}
