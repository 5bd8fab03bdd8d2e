/** Analyses in worker threads, and the key under which a result is kept. */
import { createHash } from "node:crypto";
import { gunzipSync } from "node:zlib";
import { type AnalyseOptionsInput, type Analysis, optionsSchema } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { Problem } from "../../src/take/index.ts";
import { problemFrom } from "../serialise-problem.ts";
import type { AnalysisResult, AnalysisTask, MadeAnalysis, ThreadTask } from "./task.ts";
import { type ThreadKind, threadFile } from "./thread-file.ts";
import { limitWork } from "./thread-time.ts";
import { openThreads, outOfMemory } from "./threads.ts";

/** An analysis that works longer than this is given up; a solo takes about a second. */
const TIME_LIMIT_MS = 60_000;

export interface Analyst {
  /** Throws the `Problem` that the analysis ended with. */
  analyse(task: AnalysisTask): Promise<MadeAnalysis>;
  /** Runs a task of another kind in the same threads. */
  run<Task, Result>(kind: ThreadKind, task: Task): Promise<Result>;
  close(): Promise<void>;
}

/**
 * @param timeLimit milliseconds of work after which an analysis is given up; waiting for a thread does not count
 * @param heapMb most memory for values of a thread, in MB
 */
export function createAnalyst(threads: number, timeLimit = TIME_LIMIT_MS, heapMb?: number): Analyst {
  threadFile("analysis");
  const pool = openThreads({ least: 1, most: threads, idleMs: 30_000, ...(heapMb && { heapMb }) });
  return {
    analyse: async (task) => {
      const { port, signal, release } = limitWork(timeLimit);
      const sent: ThreadTask = { ...task, begun: port };
      try {
        const result: AnalysisResult = await pool.run(sent, {
          filename: threadFile("analysis"),
          transferList: [port],
          signal,
        });
        if (result.ok) return result;
        throw problemFrom(result.problem);
      } catch (error) {
        if (signal.aborted) throw tooLong(timeLimit);
        if (outOfMemory(error)) throw tooLarge();
        throw error;
      } finally {
        release();
      }
    },
    run: async <Task, Result>(kind: ThreadKind, task: Task) => {
      try {
        return (await pool.run(task, { filename: threadFile(kind) })) as Result;
      } catch (error) {
        throw outOfMemory(error) ? tooLarge() : error;
      }
    },
    close: () => pool.destroy(),
  };
}

function tooLong(timeLimit: number): Problem {
  return new Problem(
    "analysis-too-long",
    `The analysis did not end within ${timeLimit / 1000} seconds of work`,
    null,
    "Send a shorter excerpt.",
  );
}

function tooLarge(): Problem {
  return new Problem(
    "analysis-too-large",
    "The analysis needed more memory than a thread may use",
    null,
    "Send a shorter excerpt.",
  );
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

/** The account's JSON as it was written. */
export function accountText(account: Uint8Array): string {
  return gunzipSync(account).toString("utf8");
}
