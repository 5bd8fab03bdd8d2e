/** Settings of the environment, and how a program ends that cannot start with them: in one line. */
import { statSync } from "node:fs";
import pino, { type Logger } from "pino";
import { describeProblem, Problem } from "../src/take/index.ts";
import { diskFull } from "./errors.ts";
import type { Quota } from "./store/quota.ts";
import { isDiskFull } from "./store/room.ts";

const LEVELS = ["trace", "debug", "info", "warn", "error", "fatal", "silent"];

/** @throws Problem `bad-setting` for what is no port */
export function portOf(text: string | undefined): number {
  const port = Number(text ?? 4000);
  if (text !== "" && Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new Problem("bad-setting", `PORT is "${text}"`, "PORT", "Give a whole number from 0 to 65535.");
}

/** @throws Problem `bad-setting` for what is no number of proxies */
export function proxiesOf(text: string | undefined): number {
  return wholeNumber("PROXIES", text, 0, 100) ?? 0;
}

/** Days after which what is held on players is deleted; null for never. @throws Problem `bad-setting` */
export function keepDaysOf(text: string | undefined): number | null {
  return wholeNumber("KEEP_DAYS", text, 1, 36_500);
}

/** Days that entries of the audit are kept. @throws Problem `bad-setting` */
export function auditDaysOf(text: string | undefined): number {
  return wholeNumber("AUDIT_DAYS", text, 1, 36_500) ?? 365;
}

/** What a token may keep that has no bound of its own; null for no bound. @throws Problem `bad-setting` */
export function quotaOf(takes: string | undefined, megabytes: string | undefined): Quota {
  return {
    takes: wholeNumber("QUOTA_TAKES", takes, 0, 1_000_000_000),
    megabytes: wholeNumber("QUOTA_MB", megabytes, 0, 1_000_000_000),
  };
}

/** How long a PostgreSQL server that does not answer is waited for at the start, in seconds. @throws Problem `bad-setting` */
export function databaseWaitOf(text: string | undefined): number {
  return wholeNumber("DATABASE_WAIT", text, 0, 3600) ?? 30;
}

/** The folder that may be read; null for none. @throws Problem `bad-setting` where there is none of that name */
export function folderOf(text: string | undefined): string | null {
  if (text === undefined || text === "") return null;
  if (statSync(text, { throwIfNoEntry: false })?.isDirectory()) return text;
  throw new Problem(
    "bad-setting",
    `CORPUS_DIR is "${text}", which is no folder`,
    "CORPUS_DIR",
    "Give a folder that there is, or leave it out.",
  );
}

/** Seconds after which the message of a worker that died is handed out again. @throws Problem `bad-setting` */
export function expireSecondsOf(text: string | undefined): number {
  return wholeNumber("QUEUE_EXPIRE_SECONDS", text, 1, 86_400) ?? 90;
}

function wholeNumber(name: string, text: string | undefined, least: number, most: number): number | null {
  if (text === undefined || text === "") return null;
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new Problem(
    "bad-setting",
    `${name} is "${text}"`,
    name,
    `Give a whole number from ${least} to ${most}, or leave it out.`,
  );
}

/**
 * The log, on standard error.
 *
 * @throws Problem `bad-setting` for a level that there is not
 */
export function logOf(level = "info"): Logger {
  if (!LEVELS.includes(level)) {
    throw new Problem(
      "bad-setting",
      `LOG_LEVEL is "${level}"`,
      "LOG_LEVEL",
      `Give one of ${LEVELS.join(", ")}.`,
    );
  }
  return pino({ level, serializers: { err: tellError } }, pino.destination(2));
}

/**
 * What a log holds of an error. Drivers of databases hang the statement, its values and the row that was refused on
 * their errors, and with them names of persons; none of that is told.
 */
export function tellError(error: unknown): Record<string, unknown> {
  if (!(error instanceof Error)) return { type: typeof error };
  const { name: type, message, stack } = error;
  const { code } = error as { code?: unknown };
  // The value that a database refuses stands in quotes at the end: invalid input syntax for type date: "...".
  const plain = (text: string | undefined) => text?.replace(/: "(?:[^"\n]|"(?!$))*"/gm, ': "..."');
  return { type, message: plain(message), stack: plain(stack), ...(code === undefined ? {} : { code }) };
}

/** Runs the start of a program; what it cannot start with is told in one line, and the process ends with 1. */
export async function orOneLine(start: () => Promise<void>): Promise<void> {
  try {
    await start();
  } catch (error) {
    if (!(error instanceof Problem) && !isDiskFull(error)) throw error;
    console.error(describeProblem(error instanceof Problem ? error : diskFull()));
    process.exitCode = 1;
  }
}
