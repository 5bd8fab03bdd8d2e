/** What routes work with. */
import type { Logger } from "pino";
import type { Analyst } from "./analysis/analyst.ts";
import type { Database } from "./store/database.ts";

export interface Services {
  readonly database: Database;
  readonly analyst: Analyst;
  readonly log: Logger;
}
