/** The account of what was heard against the account of the MIDI that was played: notes, places, findings. */
import type { AccountNote, AnalyseOptionsInput, Analysis } from "../../../src/account.ts";
import { analyse } from "../../../src/analyse.ts";
import { type Heard, type HeardNote, writeHeard } from "../../../src/listen/index.ts";
import { matchNotes, type Played } from "./match.ts";

/** Notes more likely than this are taken, as `src/ingest/heard` does. */
export const TAKEN = 0.5;
const CORRECTIONS = 10;

export interface Solo {
  readonly bytes: Uint8Array;
  readonly chart: string;
  readonly options: AnalyseOptionsInput;
  readonly played: readonly Played[];
}

export interface Compared {
  /** Notes of the solo; of them found; of these with the same bar, beat, role and placement. */
  readonly solo: number;
  readonly found: number;
  readonly equal: number;
  /** Notes heard, and those of them that nobody played. */
  readonly heard: number;
  readonly extra: number;
  /** Ids of findings: of the MIDI, of these said of the sound too, and those said of the sound alone. */
  readonly findings: readonly string[];
  readonly same: readonly string[];
  readonly added: readonly string[];
  /** Of findings that are not said of the sound: the reason that its account gives, by id. */
  readonly why: Readonly<Record<string, string>>;
}

export interface Held {
  readonly before: Compared;
  /** After a teacher took or left the notes that the program was least sure of. */
  readonly after: Compared;
}

export function holdAgainst({ bytes, chart, options, played }: Solo, heard: Heard): Held {
  const truth = analyse(bytes, chart, options);
  const account = (of: Heard) => analyse(writeHeard(of), chart, options);
  return {
    before: compare(truth, account(heard)),
    after: compare(truth, account({ ...heard, notes: correct(heard.notes, played) })),
  };
}

/** What a teacher would do with the ten notes that the program is least sure of: take or leave them rightly. */
function correct(heard: readonly HeardNote[], played: readonly Played[]): HeardNote[] {
  const right = new Set(matchNotes(played, heard));
  const doubtful = heard
    .map((note, i) => ({ i, doubt: Math.abs(note.certainty - TAKEN) }))
    .sort((a, b) => a.doubt - b.doubt)
    .slice(0, CORRECTIONS);
  const asked = new Set(doubtful.map(({ i }) => i));
  return heard.map((note, i) =>
    asked.has(i) ? { ...note, certainty: right.has(i) ? 1 : 0, doubt: null } : note,
  );
}

const asPlayed = (note: AccountNote) => ({ ...note, end: note.onset + note.duration });

function compare(truth: Analysis, heard: Analysis): Compared {
  const solo = truth.notes.filter((note) => note.solo).map(asPlayed);
  const others = heard.notes.map(asPlayed);
  const match = matchNotes(solo, others);
  const inAll = matchNotes(truth.notes.map(asPlayed), others);
  const said = new Set(heard.findings.map(({ id }) => id));
  const findings = truth.findings.map(({ id }) => id);
  const reasons = heard.withheld.map(({ rule, why }) => [rule, why] as const);
  return {
    solo: solo.length,
    found: match.filter((j) => j >= 0).length,
    equal: match.filter((j, i) => j >= 0 && told(truth, solo[i]!) === told(heard, heard.notes[j]!)).length,
    heard: others.length,
    extra: others.length - inAll.filter((j) => j >= 0).length,
    findings,
    same: findings.filter((id) => said.has(id)),
    added: [...said].filter((id) => !findings.includes(id)),
    why: Object.fromEntries(reasons.filter(([rule]) => findings.includes(rule))),
  };
}

/** What an account says of a note, but for its exact time. */
function told(account: Analysis, note: AccountNote): string {
  const place = account.placements.find(({ id }) => id === note.placement);
  return JSON.stringify([note.chorus, note.bar, note.beat, note.role, place?.shape, place?.anchorPitch]);
}
