/** Analyses in worker threads, and the key under which a result is kept. */
import { createHash } from "node:crypto";
import { availableParallelism } from "node:os";
import { gunzipSync } from "node:zlib";
import { Piscina } from "piscina";
import { type AnalyseOptionsInput, type Analysis, optionsSchema } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { Problem } from "../../src/take/index.ts";
import type { AnalysisResult, AnalysisTask, MadeAnalysis } from "./task.ts";

/** An analysis that runs longer than this is given up; a solo takes a fraction of a second. */
const TIME_LIMIT_MS = 60_000;

export interface Analyst {
  /** Throws the `Problem` that the analysis ended with. */
  analyse(task: AnalysisTask): Promise<MadeAnalysis>;
  close(): Promise<void>;
}

export function createAnalyst(threads = Math.max(1, availableParallelism())): Analyst {
  const pool = new Piscina<AnalysisTask, AnalysisResult>({
    filename: new URL("./worker.ts", import.meta.url).href,
    // Said outright, so that a thread reads TypeScript whichever program started the server.
    execArgv: ["--import", import.meta.resolve("tsx")],
    minThreads: 1,
    maxThreads: threads,
    idleTimeout: 30_000,
    resourceLimits: { maxOldGenerationSizeMb: 1024 },
  });
  return {
    analyse: async (task) => {
      const result = await pool.run(task, { signal: AbortSignal.timeout(TIME_LIMIT_MS) }).catch((error) => {
        if ((error as { name?: string }).name !== "AbortError") throw error;
        throw new Problem(
          "analysis-too-long",
          `The analysis did not end within ${TIME_LIMIT_MS / 1000} seconds`,
          null,
          "Send a shorter excerpt.",
        );
      });
      if (result.ok) return result;
      const { code, message, where, todo } = result.problem;
      throw new Problem(code, message, where, todo);
    },
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
