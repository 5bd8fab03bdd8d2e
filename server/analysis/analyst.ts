/** Analyses in worker threads, and the key under which a result is kept. */
import { createHash } from "node:crypto";
import { gunzipSync } from "node:zlib";
import { type AnalyseOptionsInput, type Analysis, optionsSchema } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { Problem } from "../../src/take/index.ts";
import { problemFrom } from "../serialise-problem.ts";
import type { AnalysisResult, AnalysisTask, MadeAnalysis } from "./task.ts";
import { type ThreadKind, threadFile } from "./thread-file.ts";
import { openThreads } from "./threads.ts";

/** An analysis that runs longer than this is given up; a solo takes a fraction of a second. */
const TIME_LIMIT_MS = 60_000;

export interface Analyst {
  /** Throws the `Problem` that the analysis ended with. */
  analyse(task: AnalysisTask): Promise<MadeAnalysis>;
  /** Runs a task of another kind in the same threads. */
  run<Task, Result>(kind: ThreadKind, task: Task): Promise<Result>;
  close(): Promise<void>;
}

/** @param timeLimit milliseconds after which an analysis is given up */
export function createAnalyst(threads: number, timeLimit = TIME_LIMIT_MS): Analyst {
  threadFile("analysis");
  const pool = openThreads({ least: 1, most: threads, idleMs: 30_000 });
  return {
    analyse: async (task) => {
      const result: AnalysisResult = await pool
        .run(task, { filename: threadFile("analysis"), signal: AbortSignal.timeout(timeLimit) })
        .catch((error) => {
          if ((error as { name?: string }).name !== "AbortError") throw error;
          throw new Problem(
            "analysis-too-long",
            `The analysis did not end within ${timeLimit / 1000} seconds`,
            null,
            "Send a shorter excerpt.",
          );
        });
      if (result.ok) return result;
      throw problemFrom(result.problem);
    },
    run: <Task, Result>(kind: ThreadKind, task: Task) =>
      pool.run(task, { filename: threadFile(kind) }) as Promise<Result>,
    close: () => pool.destroy(),
  };
}

export function sha256(bytes: Uint8Array | string): string {
  return createHash("sha256").update(bytes).digest("hex");
}

/** One key for one result: the same source, chart, options and version give the same account, byte for byte. */
export function analysisKey(source: string, chart: string | null, options: AnalyseOptionsInput): string {
  const whole = optionsSchema.parse(options);
  const sorted = Object.fromEntries(Object.entries(whole).sort(([a], [b]) => (a < b ? -1 : 1)));
  return sha256(JSON.stringify([source, chart, sorted, ANALYSIS_VERSION]));
}

export function openAccount(account: Uint8Array): Analysis {
  return JSON.parse(accountText(account)) as Analysis;
}

/** The account's JSON as it was written, byte for byte. */
export function accountText(account: Uint8Array): string {
  return gunzipSync(account).toString("utf8");
}
