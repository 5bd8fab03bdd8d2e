/** Settings of the environment, and how a program ends that cannot start with them: in one line. */
import pino, { type Logger } from "pino";
import { describeProblem, Problem } from "../src/take/index.ts";

const LEVELS = ["trace", "debug", "info", "warn", "error", "fatal", "silent"];

/** @throws Problem `bad-setting` for what is no port */
export function portOf(text: string | undefined): number {
  const port = Number(text ?? 4000);
  if (text !== "" && Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new Problem("bad-setting", `PORT is "${text}"`, "PORT", "Give a whole number from 0 to 65535.");
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
  return { type, message, stack, ...(code === undefined ? {} : { code }) };
}

/** Runs the start of a program; what it cannot start with is told in one line, and the process ends with 1. */
export async function orOneLine(start: () => Promise<void>): Promise<void> {
  try {
    await start();
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    console.error(describeProblem(error));
    process.exitCode = 1;
  }
}
