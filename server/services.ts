/** What routes work with. */
import type { Logger } from "pino";
import type { Analyst } from "./analysis/analyst.ts";
import type { Audit } from "./audit.ts";
import type { CorpusSearch } from "./corpus/search.ts";
import type { Unfolder } from "./corpus/unfolder.ts";
import type { Queue } from "./jobs/queue.ts";
import type { Listener } from "./listen/listener.ts";
import type { Metrics } from "./metrics.ts";
import type { Readiness } from "./readiness.ts";
import type { Accounts } from "./store/accounts.ts";
import type { Database } from "./store/database.ts";
import type { Quota } from "./store/quota.ts";

export interface Services {
  readonly database: Database;
  readonly analyst: Analyst;
  /** Accounts for readers. */
  readonly accounts: Accounts;
  readonly listener: Listener;
  readonly queue: Queue;
  readonly search: CorpusSearch;
  readonly unfolder: Unfolder;
  /** Folder whose files may be analysed where they lie, or null. */
  readonly corpusDir: string | null;
  /** True when every request must carry a token: on any address but the loopback one. */
  readonly needsToken: boolean;
  /** What a command on this machine opens the service with, as an owner; it is told in the data folder alone. */
  readonly folderKey: string;
  /** Proxies before the service, whose word on the caller's address and on TLS is taken. */
  readonly proxies: number;
  readonly metrics: Metrics;
  readonly audit: Audit;
  /** What a token may keep that has no bound of its own. */
  readonly quota: Quota;
  /** Whether the store answers and a worker is alive, here or elsewhere. */
  readonly readiness: () => Promise<Readiness>;
  readonly log: Logger;
}
