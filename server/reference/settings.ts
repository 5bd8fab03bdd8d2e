/** What the environment and the command line decide, as the reference prints it. */

export const SETTINGS: readonly (readonly [name: string, meaning: string, otherwise: string])[] = [
  ["PORT", "port to listen at, 0 to 65535; 0 takes a free one", "4000"],
  [
    "HOST",
    "address to listen at; on anything but the loopback address an owner's token must exist",
    "127.0.0.1",
  ],
  ["DATA_DIR", "folder of the embedded store, for one process at a time", "data"],
  ["DATABASE_URL", "a PostgreSQL server in place of the embedded store", "the embedded store"],
  [
    "DATABASE_WAIT",
    "seconds that a starting program waits for a PostgreSQL server that does not answer, 0 to 3600",
    "30",
  ],
  ["CORPUS_DIR", "a folder whose files may be analysed where they lie", "none"],
  [
    "KEEP_DAYS",
    "days after which takes under a player's name, and players of whom nothing newer is held, are deleted by themselves, 1 to 36500",
    "never",
  ],
  [
    "AUDIT_DAYS",
    "days that is kept who read and wrote what of persons, and what tokens that have ended were called, 1 to 36500",
    "365",
  ],
  ["QUOTA_TAKES", "most takes that a token may keep, unless it has a bound of its own", "no bound"],
  [
    "QUOTA_MB",
    "most megabytes of files and recordings that a token may keep, unless it has a bound of its own",
    "no bound",
  ],
  ["DEMO", '"off" does not load the demo class into a new store', "on"],
  ["WORKER", '"off" leaves jobs to npm run worker, on as many machines as wanted', "on"],
  ["THREADS", "number of threads that analyse, in the server and in each worker", "number of processors"],
  [
    "PROXIES",
    "number of proxies before the service, whose word on the caller's address and on TLS is taken",
    "0",
  ],
  ["QUEUE_EXPIRE_SECONDS", "seconds after which what a dead worker was at is handed out again", "90"],
  ["LOG_LEVEL", "what is logged on standard error: trace, debug, info, warn, error, fatal or silent", "info"],
];

/** Set by npm or by tools, not by users. */
export const NOT_SETTINGS: readonly string[] = ["INIT_CWD"];

export const SCRIPTS: readonly (readonly [name: string, meaning: string])[] = [
  ["npm start", "starts the service; builds the pages first where they are older than their sources"],
  ["npm run dev", "starts the service with pages that are built as they are asked for"],
  ["npm run build", "everything into dist: pages, library, programs, threads"],
  ["npm run build:library", "the library into dist/library"],
  ["npm pack", "one file that others install, after a build"],
  ["npm run worker", "a worker that analyses what waits in jobs"],
  ["npm run -s token -- NAME", "makes an owner's token, and prints it once"],
  [
    "npm run -s ledgerline -- analyse FILE...",
    "the command line; ledgerline analyse FILE... where the package is installed",
  ],
  [
    "npm run -s ledgerline -- backup FILE",
    "all that the store holds into a new file, also while the service runs; read again and held against its hashes",
  ],
  [
    "npm run -s ledgerline -- restore FILE",
    "a backup into a new store: the folder DATA_DIR, or the empty database DATABASE_URL; what it then holds is held against the hashes of the file",
  ],
  ["npm run reference", "makes these pages again"],
  ["npm test", "the check, then all tests"],
  ["npm run check", "formatter, linter, laws of the house, type checker"],
  ["npm run coverage", "the share of lines and branches that the tests run through"],
  ["npm run format", "formats, and mends tables"],
  ["npm run corpus", "makes the demo corpus again"],
  ["npm run report -- NAME", "prints the figures of a report"],
  ["npm run bench -- NAME", "prints a benchmark as a ratio against a floor in the same run"],
];

export const FLAGS: readonly (readonly [name: string, meaning: string])[] = [
  ["--chart CHART", "chart text, or the name of a file that holds it"],
  ["--form NAME", "id of a built-in form, with --key"],
  ["--key KEY", "key of the form: F, Gm"],
  ["--shape NAME", "name of a hand shape that the player uses; may be given again; none fingers without"],
  ["--format FORMAT", "json (the account), csv or ndjson (one row a note), text, musicxml or html"],
  ["--out DIR", "folder for the results, one file each; standard output when left out"],
  ["--method METHOD", "how bars are found: auto, notated, click, tracked or rubato"],
  ["--tempo N", "known tempo in quarter notes a minute"],
  ["--solo-part ID", "part that carries the solo"],
  ["--solo-staff N", "staff of that part, number from 1"],
  ["--solo-hand HAND", "hand that carries the line: right, left or both"],
  ["--head-choruses N", "choruses at the start that play the tune and are not counted as solo, number"],
  ["--pattern N", "pattern of a format 2 MIDI file, number from 1"],
  ["--corrections LIST", "what is put right of single notes, as JSON or the name of a file that holds it"],
  ["--help", "prints how it is called"],
];
