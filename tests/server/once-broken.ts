/**
 * What once broke the service, or was missing where a school needs it, and the test of each. Whoever finds more adds a
 * line, so that nobody has to find it again.
 */
export interface OnceBroken {
  /** What was so. */
  readonly was: string;
  /** Tests as FILE: NAME, from this folder, or programs of `npm run report` and `npm run bench` as their files. */
  readonly tests: readonly string[];
}

export const ONCE_BROKEN: readonly OnceBroken[] = [
  {
    was: "The README's last command printed other shares than the summary",
    tests: ["readme.test.ts: the share of tensions by tag, from the table alone, is that of the accounts"],
  },
  {
    was: "The published schema refused every account",
    tests: [
      "../contract/account-schema.test.ts: %s is as published",
      "../contract/every-call.test.ts: calls every operation, and every answer is as it is published",
    ],
  },
  {
    was: "Fields and operations without a description, a name, a tag or who may ask",
    tests: [
      "../contract/account-schema.test.ts: is described: give it `.describe(...)` beside its type",
      "../contract/openapi.test.ts: has a name of its own, a tag that is explained, a summary, and who may ask",
      "../contract/openapi.test.ts: asks for a token unless it is open",
    ],
  },
  {
    was: "A researcher read a failed file of another corpus",
    tests: ["access.test.ts: a file that failed is told to those of its corpus alone"],
  },
  {
    was: "A teacher without players changed and deleted everybody's charts",
    tests: ["audit.test.ts: belong to the teacher who made them: others read them, owners change all"],
  },
  {
    was: "A reader's link spent the processor",
    tests: [
      "access.test.ts: each role is refused every route that is not of its kind, before anything is read",
    ],
  },
  {
    was: "Whether a take came into a corpus depended on how busy the machine was",
    tests: [
      "threads.test.ts: waiting for a thread is not counted",
      "repeatable.test.ts: is the same from the embedded store in order, and elsewhere in another order, in parts and under load",
    ],
  },
  {
    was: "Files that failed could not be tried again",
    tests: [
      "jobs.test.ts: that failed is tried again by one call, with the others of its corpus that failed",
    ],
  },
  {
    was: "Tables without takes, units, versions, lists and dates",
    tests: [
      "take-table.test.ts: has a row for each, with the hash of its file and the version of its account",
      "take-table.test.ts: is a Parquet file with types that another reader opens, and says what its columns are",
      "parquet.test.ts: is read by another library as it was written",
    ],
  },
  {
    was: "A server and a worker that began at the same moment on a new database broke off",
    tests: [
      "starting-together.test.ts: five at once on one PostgreSQL server (skipped where it is not installed)",
    ],
  },
  {
    was: "A worker that began while the database restarted broke off",
    tests: ["operating.test.ts: is waited for by a worker that starts meanwhile"],
  },
  {
    was: "An owner who opened a link was signed out to a reader",
    tests: ["access.test.ts: a link never takes the place of a session that reaches more"],
  },
  {
    was: "A token's reach could not be changed",
    tests: [
      "access.test.ts: what a token reaches is changed without a new token, by an owner, until it ends",
    ],
  },
  {
    was: "Tokens could be guessed as fast as the line allowed, and a class behind one router was one caller",
    tests: [
      "limits.test.ts: a class behind one router is not one: each token is counted for itself, and guesses hold up nobody's",
    ],
  },
  {
    was: "A file that took a thread's memory ended the server",
    tests: [
      "threads.test.ts: a thread out of memory fails its task, and the next one gets a new thread",
      "threads.test.ts: every pool hears of faults that nobody waits for",
    ],
  },
  {
    was: "An anchor at 1e308 seconds worked for 28 s and took 1 GB",
    tests: [
      "numbers.test.ts: options %j are refused",
      "../contract/finite.test.ts: every number of the options has a finite range, and every list a greatest length",
    ],
  },
  {
    was: "A day that there is not was a fault of ours, and took a whole upload along",
    tests: [
      "numbers.test.ts: the date %s is refused, new and changed",
      "odd-requests.test.ts: a manifest with a day that there is not is refused with its entry, and nothing of it is kept",
    ],
  },
  {
    was: "The same file sent twice was two takes of a corpus",
    tests: ["repeats.test.ts: counts once, within an upload and in a later one"],
  },
  {
    was: "Two servers on one data folder lost what the second wrote",
    tests: ["starting.test.ts: a second server and a token command are refused with the reason and the mend"],
  },
  {
    was: "A full disk stopped all requests for good",
    tests: [
      "full-disk.test.ts: writes are answered 507 with words, reads and jobs go on when they can, and nothing is restarted",
      "full-disk.test.ts: is read on while it is full to the last byte, and written again when there is room",
    ],
  },
  {
    was: "What was deleted stood in the files of the store",
    tests: [
      "erasure.test.ts: of the embedded store",
      "erasure.test.ts: of a PostgreSQL server (skipped where it is not installed)",
    ],
  },
  {
    was: "Logs held what persons are called",
    tests: [
      "logs.test.ts: an error of the database is logged without the values of its statement",
      "logs.test.ts: every answer is logged by route, id, status and time, and what persons are called is not",
    ],
  },
  {
    was: "An upload of 127 MB held up every answer for 12 s and took 2.4 GB, and readers timed out",
    tests: [
      "readers.test.ts: two hundred readers of an account are two questions to the store and one copy of it",
      "uploads.test.ts: a reader that takes nothing of a table is not waited for by others",
      "../reports/load.report.ts",
    ],
  },
  {
    was: "Nobody knew what kills at any moment lose",
    tests: [
      "killing.test.ts: the embedded store, its server killed",
      "killing.test.ts: a PostgreSQL server with two workers: server, workers and database killed (skipped without PostgreSQL)",
      "../reports/durability.report.ts",
    ],
  },
  {
    was: "Tables were compared before and after a restart by hand",
    tests: ["odd-requests.test.ts: tables are the same bytes after a restart"],
  },
  {
    was: "Settings that cannot be ended in a stack of the program, or were taken in silence",
    tests: ["starting.test.ts: %s with %j ends with 1 and one line"],
  },
  {
    was: "There was no backup, no way to the other store, and no test of an old data folder",
    tests: [
      "backup.test.ts: is made while the server holds the folder and goes on keeping takes, and is whole",
      "backup.test.ts: from the embedded one to PostgreSQL and back, every row and account is the same",
      "upgrading.test.ts: are all here up to the newest step, none left out",
      "upgrading.test.ts: survives upgrades that are killed again and again, and then opens as it was",
    ],
  },
  {
    was: "No figures, no readiness that means it, no audit of reads, no quotas, nothing deleted by age",
    tests: [
      "operating.test.ts: gives figures in the usual text format, under both its addresses, and no names",
      "operating.test.ts: says no while no worker is alive, here or elsewhere",
      "audit.test.ts: holds who read and wrote what of persons, by ids, for owners alone",
      "audit.test.ts: is bounded in takes and bytes, by a setting or of its own, and told when reached",
      "deletion.test.ts: goes by itself with its player, and what is younger or of no player stays",
    ],
  },
  {
    was: "Slow, half-open and two-tongued clients were tried by hand",
    tests: [
      "slow-clients.test.ts: three hundred of them hold up nobody, and none stays",
      "odd-requests.test.ts: with %s is refused, and what stands behind it is not read",
      "odd-requests.test.ts: under another name than this machine's is refused, so that no name can be turned to it",
    ],
  },
  {
    was: "Scripts in names and notes, zips that unfold to much, and paths that lead out were tried by hand",
    tests: [
      "injection.test.ts: in fields, queries, paths and patterns is only text",
      "injection.test.ts: of a zip's entries are only names: nothing is written, and the file is given back under its last part",
      "limits.test.ts: a zip that unfolds to too much is refused, as one file and as many",
    ],
  },
  {
    was: "Nothing made up requests that nobody would think of",
    tests: [
      "fuzz.test.ts: nothing that is sent makes the server err, and it answers still",
      "../reports/fuzz.report.ts",
    ],
  },
];
