/**
 * The items of the OWASP Application Security Verification Standard 4.0 at level 2 that touch this service: what each
 * asks, in our own words, and the tests that hold it, or the reason why it is not held or does not apply. The numbers
 * were read in the standard's chapters V3, V4, V5, V7, V8, V12, V13 and V14; those marked [memory] are recalled.
 */
export interface AsvsItem {
  /** Number in the standard, with "[memory]" where it is recalled. */
  readonly item: string;
  readonly asks: string;
  /** Tests as FILE: NAME, in this folder or under `tests/`. */
  readonly tests?: readonly string[];
  readonly reason?: string;
}

const NO_PASSWORDS =
  "There are no passwords and no accounts of users: access is by tokens of 256 random bits that the owner makes.";

export const ASVS: readonly AsvsItem[] = [
  // Authentication
  { item: "2.1 [memory]", asks: "passwords long enough, changeable, not leaked ones", reason: NO_PASSWORDS },
  {
    item: "2.2.1 [memory]",
    asks: "guessing credentials by machine is slowed down",
    tests: ["limits.test.ts: more than twenty sign-ins a minute are refused, and it says when to come back"],
  },
  {
    item: "2.4 [memory]",
    asks: "credentials at rest cannot be turned back",
    tests: ["access.test.ts: a token is kept as a hash, and opens nothing once it has ended"],
  },
  {
    item: "2.5 [memory]",
    asks: "recovery of credentials",
    reason: `${NO_PASSWORDS} A lost one is ended and a new one made.`,
  },
  {
    item: "2.7, 2.8 [memory]",
    asks: "second factors",
    reason:
      "Not offered. The service is meant for a machine or a school's own network; the token is the only factor.",
  },
  {
    item: "2.10 [memory]",
    asks: "no fixed credentials of services in code",
    tests: ["access.test.ts: the service does not listen on another address without an owner's token"],
  },
  // Sessions
  {
    item: "3.1.1",
    asks: "no session token in a URL",
    reason:
      "Signing in sends the token in the body. A read-only link is the exception: it carries its own token, which opens one take, is moved into a cookie at once, ends by itself after the time that was chosen and can be ended before.",
  },
  {
    item: "3.2.1",
    asks: "a new session token at each sign-in",
    reason: "The cookie carries the token itself; there is no session before signing in that could be fixed.",
  },
  {
    item: "3.2.2, 3.2.4",
    asks: "tokens from a cryptographic source, at least 64 bits",
    tests: ["access.test.ts: a token is kept as a hash, and opens nothing once it has ended"],
  },
  {
    item: "3.2.3, 3.4.2, 3.4.3",
    asks: "session kept in a cookie that scripts cannot read and other sites do not send",
    tests: ["access.test.ts: a page signs in with a cookie that scripts cannot read"],
  },
  {
    item: "3.3.1",
    asks: "signed out means signed out; an ended token opens nothing",
    tests: ["access.test.ts: a token is kept as a hash, and opens nothing once it has ended"],
  },
  {
    item: "3.3.2",
    asks: "signing in again after twelve hours",
    tests: ["access.test.ts: a page signs in with a cookie that scripts cannot read"],
  },
  {
    item: "3.3.4",
    asks: "the owner sees what is in force and ends it",
    tests: [
      "access.test.ts: a token is kept as a hash, and opens nothing once it has ended",
      "sharing.test.ts: ends by itself after the days that it was made for",
    ],
  },
  {
    item: "3.4.1",
    asks: "cookie over TLS only",
    tests: [
      "access.test.ts: behind a proxy that speaks TLS the cookie is sent over TLS only, and its word counts only when told so",
    ],
  },
  {
    item: "3.4.4, 3.4.5",
    asks: "cookie bound to this host by its name, with the narrowest path",
    reason:
      "The prefix needs TLS, which a school's network may not have; the cookie names no domain, so it goes to this host only.",
  },
  {
    item: "3.5.2",
    asks: "session tokens rather than fixed keys",
    reason:
      "Programs of researchers send the token that they were given; the owner can end it at any moment.",
  },
  {
    item: "3.7.1",
    asks: "asking again before what cannot be undone",
    reason: "Deletions can be undone for half an hour in place of a second question.",
  },
  // Access control
  {
    item: "4.1.1, 4.1.2, 4.2.1",
    asks: "access decided on the server, in one place, before anything is read",
    tests: [
      "access.test.ts: each role is refused every route that is not of its kind, before anything is read",
    ],
  },
  {
    item: "4.1.3",
    asks: "users cannot change what decides their access",
    tests: ["access.test.ts: a teacher gives takes to their own players only, and cannot widen their reach"],
  },
  {
    item: "4.1.4, 4.2.2, 4.2.3, 4.2.5, 13.1.4",
    asks: "each role reaches its own rows and no others, by route and by row",
    tests: [
      "access.test.ts: each role reaches its scope and nothing else",
      "access.test.ts: a researcher reads the corpora of the token and no others, and changes none",
    ],
  },
  {
    item: "4.1.5, 4.1.6",
    asks: "closed unless opened on purpose, also when something fails",
    tests: [
      "access.test.ts: no route but those that are open on purpose answers without a token",
      "access.test.ts: a fault inside tells nothing of the inside",
    ],
  },
  {
    item: "4.2.4, 13.2.3",
    asks: "another site's page cannot act for a user",
    tests: ["takes.test.ts: a page of another origin may not change anything"],
  },
  {
    item: "4.3.1",
    asks: "second factor for administration",
    reason: "Not offered; an owner's token is made on the machine itself, by whoever may run commands there.",
  },
  {
    item: "4.3.2",
    asks: "no listing of folders, no files of tools",
    tests: ["injection.test.ts: of pages and sounds do not lead out of theirs"],
  },
  {
    item: "4.3.3",
    asks: "separated duties for what is worth much",
    reason: "Nothing here is money; the roles part what is private.",
  },
  // Input and output
  {
    item: "5.1.1",
    asks: "a parameter given twice does not confuse",
    tests: ["asvs.test.ts: a parameter that is given twice is refused by its schema"],
  },
  {
    item: "5.1.2",
    asks: "fields that are not meant to be set cannot be set",
    tests: ["asvs.test.ts: fields that a request may not set are not set"],
  },
  {
    item: "5.1.3, 5.1.4, 13.2.2",
    asks: "all input checked against a schema, positively",
    tests: [
      "examples.test.ts: reading routes without parameters, and those of a take, all have an example",
      "takes.test.ts: an option out of range",
    ],
  },
  {
    item: "5.1.5",
    asks: "no redirection to elsewhere",
    tests: ["asvs.test.ts: a link leads to a take of this service and nowhere else"],
  },
  {
    item: "5.2.2",
    asks: "free text limited in letters and length",
    tests: [
      "injection.test.ts: the character zero, which PostgreSQL keeps in no text, is refused with its place",
    ],
  },
  {
    item: "5.2.1, 5.2.7, 5.2.8",
    asks: "markup of users sanitised",
    reason: "No markup is taken: all text of users is shown as text.",
  },
  { item: "5.2.3", asks: "no injection into mail", reason: "The service sends no mail." },
  {
    item: "5.2.4, 5.2.5, 5.5.4",
    asks: "nothing of users is run as code or template",
    tests: ["asvs.test.ts: no code is made of text at run time"],
  },
  {
    item: "5.2.6, 12.6.1",
    asks: "users cannot make the server send requests",
    tests: ["asvs.test.ts: the service itself sends no requests"],
  },
  {
    item: "5.3.1, 5.3.2",
    asks: "output encoded for where it goes, every letter kept",
    tests: [
      "injection.test.ts: carry file names as one quoted value, whatever is in them",
      "injection.test.ts: no text that they would run as a formula begins a cell; numbers stay numbers",
    ],
  },
  {
    item: "5.3.3, 5.3.6",
    asks: "no script of users runs in pages",
    tests: [
      "injection.test.ts: the file of a take shows titles and names as text",
      "injection.test.ts: an answer of the API is never a page, and the pages run no script but ours",
      "asvs.test.ts: the pages never make markup of text",
    ],
  },
  {
    item: "5.3.4, 5.3.5",
    asks: "values reach SQL as parameters",
    tests: ["injection.test.ts: in fields, queries, paths and patterns is only text"],
  },
  {
    item: "5.3.8, 12.3.5",
    asks: "no commands of the system made of input",
    tests: [
      "asvs.test.ts: only the building, the set-up of the store and of the pages, and the listener start processes; no input reaches their start",
    ],
  },
  { item: "5.3.7", asks: "no injection into directories", reason: "There is no LDAP." },
  {
    item: "5.3.9, 12.3.1, 12.3.2, 12.3.3",
    asks: "names of files from outside reach no file system",
    tests: [
      "injection.test.ts: of a zip's entries are only names: nothing is written, and the file is given back under its last part",
      "injection.test.ts: of a folder on the server do not lead out of the one that was allowed",
    ],
  },
  {
    item: "5.3.10, 5.5.2, 13.3.1",
    asks: "XML without entities from outside or that grow",
    tests: ["../ingest/bad-input.test.ts: an external entity, before it is fetched"],
  },
  {
    item: "5.4",
    asks: "memory-safe code",
    reason: "JavaScript and WebAssembly keep their own memory; integers of files are checked by the readers.",
  },
  {
    item: "5.5.1, 5.5.3",
    asks: "nothing but plain data is read back from what is sent",
    tests: ["injection.test.ts: are not given other prototypes by what is sent"],
  },
  // Cryptography
  {
    item: "6.2, 6.3 [memory]",
    asks: "known algorithms, random numbers from the system",
    reason:
      "SHA-256 and the system's random source of Node.js; nothing of our own. Seeds of statistics guard nothing.",
  },
  // Errors and logs
  {
    item: "7.1.1, 7.1.2, 7.1.3, 7.1.4, 7.2.1, 7.2.2",
    asks: "refusals are logged with time and place, tokens and names are not",
    tests: ["access.test.ts: refusals are logged with their path and without what was tried as a token"],
  },
  {
    item: "7.1.5",
    asks: "clocks in step",
    reason: "The machine's clock; log times are milliseconds of UTC.",
  },
  {
    item: "7.3.1, 7.3.2",
    asks: "no forged lines in logs",
    reason: "Each event is one line of JSON, written by the logger.",
  },
  {
    item: "7.3.3",
    asks: "logs guarded",
    reason: "They go to standard error; who may read them is the operator's choice.",
  },
  {
    item: "7.4.1, 7.4.2, 7.4.3, 14.3.1",
    asks: "unexpected faults are caught and say nothing of the inside",
    tests: ["access.test.ts: a fault inside tells nothing of the inside"],
  },
  // Data
  {
    item: "8.1.1, 8.1.2, 8.2.1",
    asks: "answers are not kept in caches",
    tests: ["access.test.ts: answers carry headers that keep pages to themselves"],
  },
  {
    item: "8.1.4, 13.2.4",
    asks: "too many requests are noticed and refused",
    tests: ["limits.test.ts: more than six hundred requests a minute are refused, reads too"],
  },
  {
    item: "8.2.2, 8.2.3",
    asks: "nothing private is left in the browser",
    tests: [
      "../browser/kept-takes.test.ts: keeps the program and nothing of a take, unless that is chosen",
      "../browser/kept-takes.test.ts: forgets the takes on signing out and on deletion",
    ],
  },
  {
    item: "8.3.1",
    asks: "nothing private in query strings",
    reason: "Filters of a corpus may name a player in a query string; such paths are logged without it.",
  },
  {
    item: "8.3.2",
    asks: "what is held on a person can be removed",
    tests: [
      "deletion.test.ts: takes recordings, accounts, links, files of jobs and what waits along; nothing of them is left in the store",
    ],
  },
  {
    item: "8.3.3, 8.3.4",
    asks: "people know what is kept of them, and agreed",
    reason:
      "The README's cautions and the pages say what is kept and that consent is asked for as local rules require.",
  },
  {
    item: "8.3.5",
    asks: "reading private data is audited",
    tests: ["audit.test.ts: holds who read and wrote what of persons, by ids, for owners alone"],
  },
  {
    item: "8.3.6, 8.3.7",
    asks: "memory wiped, data encrypted at rest",
    reason: "Left to the machine: encrypted disks where rules ask for it.",
  },
  {
    item: "8.3.8",
    asks: "old data goes by itself",
    tests: ["deletion.test.ts: goes by itself with its player, and what is younger or of no player stays"],
    reason: "Only where KEEP_DAYS is set; otherwise a teacher deletes players when lessons end.",
  },
  {
    item: "8.3.9",
    asks: "what is held on a person can be had",
    tests: [
      "deletion.test.ts: comes as one zip: every take with recording, account and feedback, links, and files of jobs",
    ],
  },
  // Communication
  {
    item: "9.1 [memory], 13.2.6, 14.4.5",
    asks: "TLS on the way",
    reason:
      "Bound to this machine unless told otherwise; for other machines a proxy with TLS stands before it (PROXIES=1), which also says that TLS is a must.",
  },
  // Files
  {
    item: "12.1.1",
    asks: "too large files are refused",
    tests: [
      "limits.test.ts: an upload that says it is too large is refused before it is read, and one that does not say is too",
    ],
  },
  {
    item: "12.1.2",
    asks: "files that unfold to too much are refused",
    tests: [
      "limits.test.ts: a zip that unfolds to too much is refused, as one file and as many",
      "limits.test.ts: a zip that lies about what it unfolds to gives no more than it said",
      "limits.test.ts: a score inside a compressed MusicXML file that unfolds to too much fails alone",
    ],
  },
  {
    item: "12.1.3",
    asks: "a number of files at once, a quota for each user",
    tests: [
      "limits.test.ts: a second file where one is meant, and more files than are taken at once, are refused",
    ],
    reason: "Only the number at once; there is no quota for a teacher's takes.",
  },
  {
    item: "12.2.1",
    asks: "files are known by their content",
    tests: ["takes.test.ts: a picture"],
  },
  {
    item: "12.3.4, 12.5.2, 14.4.2",
    asks: "files of users come back as downloads of no type",
    tests: ["injection.test.ts: carry file names as one quoted value, whatever is in them"],
  },
  {
    item: "12.3.6, 14.2.3",
    asks: "no code from elsewhere",
    reason: "Everything is served by the service itself; the lock file pins what is installed.",
  },
  {
    item: "12.4.1",
    asks: "files of users lie outside the pages",
    reason: "They lie in the store, never in a file.",
  },
  {
    item: "12.4.2",
    asks: "files are scanned for viruses",
    reason: "They are parsed, never run; they go back only to who may read the take.",
  },
  {
    item: "12.5.1",
    asks: "only meant files are served",
    tests: ["injection.test.ts: of pages and sounds do not lead out of theirs"],
  },
  // API
  {
    item: "13.1.1",
    asks: "one way of parsing addresses and files",
    reason: "Express and its readers everywhere; names are decoded once.",
  },
  {
    item: "13.1.2, 13.2.1",
    asks: "management for owners only; methods by role",
    tests: [
      "access.test.ts: each role is refused every route that is not of its kind, before anything is read",
    ],
  },
  {
    item: "13.1.3",
    asks: "no keys in addresses",
    reason: "Only a read-only link carries its token, as said at 3.1.1.",
  },
  {
    item: "13.1.5, 13.2.5",
    asks: "bodies of another type than the route takes are refused",
    tests: ["asvs.test.ts: a body of another type than the route takes is refused"],
  },
  { item: "13.3.2, 13.4", asks: "SOAP and GraphQL", reason: "There is neither." },
  // Configuration
  {
    item: "14.1.1, 14.1.4",
    asks: "built and set up the same way each time",
    reason: "npm ci from the lock file, and one command to start; .ci/run is the same for everyone.",
  },
  {
    item: "14.1.3, 14.3.2",
    asks: "hardened frameworks, no debugging",
    reason: "Express with helmet, no version, no stack traces; the developer's server is another command.",
  },
  {
    item: "14.2.1, 14.2.4, 14.2.5",
    asks: "known and current packages",
    reason: "package.json pins exact versions from the public registry; the lock file is the inventory.",
  },
  {
    item: "14.2.2",
    asks: "no samples left in",
    reason: "The demo class is loaded into a new store and marked as such; DEMO=off leaves it out.",
  },
  {
    item: "14.3.3, 14.4.1, 14.4.3, 14.4.4, 14.4.6, 14.4.7",
    asks: "headers that say type, keep pages to themselves and tell no versions",
    tests: [
      "access.test.ts: answers carry headers that keep pages to themselves",
      "asvs.test.ts: every kind of answer carries the headers of safety",
    ],
  },
  {
    item: "14.5.1, 14.5.3",
    asks: "methods that are not in use are refused, and other origins are not let in",
    tests: ["asvs.test.ts: methods that are not in use are refused, and no other origin is let in"],
  },
  {
    item: "14.5.2",
    asks: "the origin heading decides no access",
    reason:
      "It can only take away: a request of another origin is refused, a right one still needs its token.",
  },
  {
    item: "14.5.4",
    asks: "headings of proxies count only from trusted ones",
    tests: [
      "access.test.ts: behind a proxy that speaks TLS the cookie is sent over TLS only, and its word counts only when told so",
    ],
  },
];
