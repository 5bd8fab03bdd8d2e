/** Guides: how the service is operated, and what a school thinks of before it keeps recordings of pupils. */
import type { ReferencePage } from "./page.ts";

const COLUMNS = ["what", "how"];

const OPERATING_GUIDE: ReferencePage = {
  id: "operating",
  title: "Operating the service",
  intro:
    "From one machine in a music room to a school's server: how it is installed, reached, watched, kept and moved. Settings and commands stand on a page of their own.",
  sections: [
    {
      title: "Installing",
      columns: COLUMNS,
      rows: [
        ["One machine", "npm ci && npm start. Only this machine reaches it, and needs no token."],
        [
          "Where nothing is to be built",
          "npm ci && npm run build on a machine with the tools; bring the folder along, then npm ci --omit=dev && npm start.",
        ],
        [
          "A container",
          "podman build -t ledgerline -f server/operate/Containerfile . (or docker), then run it with a volume at /data. Make an owner's token in it before it listens: podman run --rm -v ledgerline:/data ledgerline node server/run.js token NAME.",
        ],
        [
          "A service of systemd",
          "server/operate/ledgerline.service: copy it to /etc/systemd/system, set its folder and user, then systemctl enable --now ledgerline.",
        ],
        [
          "Which store",
          "The embedded store is for one process and suits a class or a school of some thousand takes. A PostgreSQL server (DATABASE_URL; tests run on version 15) may be shared by servers and workers on many machines.",
        ],
      ],
    },
    {
      title: "Reaching it over a network",
      intro:
        "On any address but 127.0.0.1 every request needs a token. Tokens and recordings must not cross a network in clear, so a proxy that speaks TLS stands before the service.",
      columns: COLUMNS,
      rows: [
        ["First", "npm run -s token -- NAME makes an owner's token and prints it once."],
        [
          "The proxy",
          "It holds the certificate, passes everything on to the port of the service, and sets X-Forwarded-For and X-Forwarded-Proto. server/operate/proxy.conf is an example for nginx: it takes 128 MB, waits five minutes for an upload, and does not hold back events.",
        ],
        [
          "The service behind it",
          "Let it listen where only the proxy reaches it: HOST=0.0.0.0 in a container whose port is not published, or the address of an inner network. Set PROXIES=1, so that the word of one proxy on addresses and on TLS is taken; the cookie is then sent over TLS only.",
        ],
        [
          "On the proxy's own machine",
          "A service on 127.0.0.1 answers under that name only and takes everybody on its machine for the owner. A proxy would make the whole network the owner: set HOST to another address of the machine, as 127.0.0.2 is on Linux.",
        ],
        [
          "Roles",
          "owner: all. teacher: the players of the scope. researcher: the corpora of the scope. reader: one take, by a link. monitor: the figures of the service alone.",
        ],
      ],
    },
    {
      title: "Watching it",
      columns: COLUMNS,
      rows: [
        ["GET /api/health", "The process lives. Restart it when this fails."],
        [
          "GET /api/ready",
          "200 while the store answers and a worker is alive, here or elsewhere; 503 with a reason otherwise. Send no requests while this fails.",
        ],
        [
          "GET /metrics",
          "Figures in the text format of Prometheus: answers by route and status and their seconds, takes, files that wait or failed, bytes of the store and free bytes, memory and processor. Off this machine it needs the token of an owner or a monitor: POST /api/tokens with role monitor.",
        ],
        [
          "Logs",
          "A line of JSON on standard error for each answer (route, id, status, milliseconds, role and id of the token) and for what went wrong. They hold ids, never names, queries or bodies. LOG_LEVEL=warn leaves the answers out.",
        ],
        [
          "GET /api/audit",
          "Who read and wrote what of persons, by ids; for owners. Entries go after AUDIT_DAYS.",
        ],
        [
          "A full disk",
          "With the embedded store, 507 disk-full while fewer than 48 MB are free; everything is read on, jobs wait, and nothing has to be restarted when there is room.",
        ],
        [
          "A database that restarts",
          "Running servers and workers go on when it is back; starting ones wait for it (DATABASE_WAIT).",
        ],
        ["Quotas", "QUOTA_TAKES and QUOTA_MB for every token, or for one by PATCH /api/tokens/{id}."],
      ],
    },
    {
      title: "Keeping and moving",
      columns: COLUMNS,
      rows: [
        [
          "Backup",
          "npm run -s ledgerline -- backup FILE, also while the service runs, for example every night. With the embedded store it asks the running server; nothing has to be set.",
        ],
        [
          "Restore",
          "npm run -s ledgerline -- restore FILE into a new folder or an empty database. Try it once before it is needed.",
        ],
        [
          "From the embedded store to PostgreSQL, or back",
          "Backup, stop the service, restore with the other setting, start the service with it. What was written between the backup and the stop is not in the file: stop first where that matters.",
        ],
        [
          "A newer version",
          "Backup, stop, bring the new version in place, start. Tables are brought up at the start, in one step or not at all; accounts of an older analysis stay readable and are made anew meanwhile. Stores of every version since 0.1.0 open.",
        ],
        [
          "Stopping",
          "SIGTERM ends it after the requests in hand; a job goes on after the next start. A process that is killed loses nothing that was answered.",
        ],
      ],
    },
  ],
};

const SCHOOL_GUIDE: ReferencePage = {
  id: "school",
  title: "Before a school begins",
  intro:
    "Questions that a school answers for itself before it keeps recordings of pupils, and what the program does to help with each. This is no legal advice: what holds is the law of the place and the rules of the school, and whoever is responsible for data protection there decides.",
  sections: [
    {
      title: "Questions to be settled",
      columns: ["question", "what to think of", "what the program does"],
      rows: [
        [
          "Who is responsible?",
          "Who decides why and how recordings are kept: the school, the teacher, or both. Who runs the machine for them, and is that written down?",
          "It runs on the school's own machine; nothing is sent anywhere else. The owner's token stands for whoever is responsible.",
        ],
        [
          "On what ground, and did everybody agree?",
          "Recordings of minors usually need the consent of parents, and the pupil's own from some age on; the rules differ. A consent can be taken back, and nobody may suffer for that.",
          "A player's page notes who consented and on which day, and takes it back. It does not refuse takes without one: that is for the school to hold.",
        ],
        [
          "What do people know?",
          "Pupils and parents are told what is kept, for what, for how long, and who sees it.",
          "All that is held on one player comes as one zip (GET /api/players/{id}/export.zip). The account of a take says how each number came about and how sure it is.",
        ],
        [
          "How little is enough?",
          "First names or a pupil's number may do. Sound tells more of a person than notes do.",
          "Of a recording only the notes are kept unless somebody chooses otherwise. Names are free text: a number does as well.",
        ],
        [
          "How long?",
          "Until the lesson, the term, the end of lessons? What has no end is kept for ever.",
          "KEEP_DAYS deletes by age. A deleted player takes recordings, accounts and links along; half an hour later nothing of it is left in the files of the store. Backups hold what they held: they need an end too.",
        ],
        [
          "Who sees it?",
          "Each teacher their own pupils; a substitute for some weeks; a link to parents.",
          "Tokens open what their scope says and can be changed and ended; links end by themselves. GET /api/tokens shows both, GET /api/audit who read and wrote what.",
        ],
        [
          "What are the numbers used for?",
          "A program that judges minors is looked at closely in many places, above all where marks or admission depend on it.",
          "It gives no marks, says how sure it is, and a teacher rewords or leaves out every sentence. Decisions are people's.",
        ],
        [
          "What if something goes wrong?",
          "A lost machine, a link that was passed on. Many places ask for a report within days.",
          "Tokens and links are ended at once; the audit tells by ids who read what. Encrypted disks are the machine's to have.",
        ],
        [
          "Hands and health",
          "Pain, numbness and tingling are for a licensed clinician or an experienced teacher, by local practice.",
          "Fingering is inferred from notes and never observed. The program gives no medical advice.",
        ],
        [
          "Research",
          "A corpus of pupils' takes that leaves the school is another purpose, with its own consent or ethics review.",
          "A researcher's token reads the corpora of its scope and no players. Tables of a corpus hold the names that its manifest gave: give numbers there.",
        ],
      ],
    },
  ],
};

export const GUIDES: readonly ReferencePage[] = [OPERATING_GUIDE, SCHOOL_GUIDE];
