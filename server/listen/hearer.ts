/** The process that hears: started when it is needed, ended when it has rested or when whoever asked has gone. */
import { type ChildProcess, fork } from "node:child_process";
import { Problem } from "../../src/take/index.ts";
import { threadFile } from "../analysis/thread-file.ts";
import type { HearAnswer, HearTask } from "./hear-task.ts";

/** Keeps its memory small: no room for values that live shortly, one helper thread, one pool of the C library. */
const FLAGS = ["--max-semi-space-size=2", "--v8-pool-size=1", "--max-old-space-size=1024"];
/**
 * What a decoder lets go goes back to the system: left to itself, the C library takes ever larger blocks from its pool
 * and keeps them there. [mallopt(3): M_MMAP_THRESHOLD, 128 KB at first, moves unless it is set] Where half an hour of
 * M4A is heard, the process holds 231 MB instead of 265.
 */
const POOLS = { MALLOC_ARENA_MAX: "1", MALLOC_MMAP_THRESHOLD_: String(128 * 1024) };

/** The process ended, or something in it broke, before it had an answer: `brokenOff` tells a caller so. */
export class HearerEnded extends Error {
  /** Whether it ended because it had no memory left. */
  readonly outOfMemory: boolean;
  constructor(why: string, outOfMemory = false) {
    super(`the process that hears ${why}`);
    this.outOfMemory = outOfMemory;
  }
}

export function brokenOff(): Problem {
  return new Problem(
    "listening-broke-off",
    "Listening broke off",
    null,
    "Try again; if it happens again, send a shorter excerpt.",
  );
}

export interface Hearer {
  /**
   * One at a time.
   *
   * @param said told what comes before the answer
   * @throws HearerEnded; the signal's reason when it was ended, and the process with it
   */
  hear(task: HearTask, said: (share: number) => void, signal: AbortSignal): Promise<Heard>;
  /** Ends the process. */
  close(): void;
}

type Heard = Exclude<HearAnswer, { readonly progress: number } | { readonly fault: string }>;

/** @param idleMs how long the process is kept when it has nothing to do: it takes a second to start */
export function createHearer(idleMs: number): Hearer {
  let child: ChildProcess | null = null;
  let rest: NodeJS.Timeout | undefined;
  const end = () => {
    clearTimeout(rest);
    child?.kill("SIGKILL");
    child = null;
  };
  const start = (): ChildProcess => {
    const started = fork(threadFile("hear"), {
      execArgv: FLAGS,
      env: { ...process.env, ...POOLS },
      serialization: "advanced",
      stdio: ["ignore", "ignore", "ignore", "ipc"],
    });
    started.once("exit", () => {
      if (child === started) child = null;
    });
    // Told by the exit as well; an event "error" that nobody hears would end this process.
    started.on("error", () => {});
    return started;
  };
  return {
    async hear(task, said, signal) {
      signal.throwIfAborted();
      clearTimeout(rest);
      child ??= start();
      keepAlive(child, true);
      try {
        return await answerOf(child, task, said, signal);
      } catch (error) {
        end();
        throw error;
      } finally {
        if (child !== null) {
          // A process at rest keeps no program from its end.
          keepAlive(child, false);
          rest = setTimeout(end, idleMs).unref();
        }
      }
    },
    close: end,
  };
}

function keepAlive(child: ChildProcess, alive: boolean): void {
  for (const handle of [child, child.channel]) {
    if (alive) handle?.ref();
    else handle?.unref();
  }
}

/** Everything that waits for an answer is let go with it. */
async function answerOf(
  child: ChildProcess,
  task: HearTask,
  said: (share: number) => void,
  signal: AbortSignal,
): Promise<Heard> {
  const forget: (() => void)[] = [];
  try {
    return await new Promise<Heard>((done, failed) => {
      const fail = (why: string, outOfMemory = false) => failed(new HearerEnded(why, outOfMemory));
      const tell = (answer: HearAnswer) => {
        if ("progress" in answer) said(answer.progress);
        else if ("fault" in answer) fail(`broke off: ${answer.fault}`);
        else done(answer);
      };
      // V8 ends a process by the signal of an abort when its values have no room left.
      const ended = (code: number | null, by: string | null) =>
        fail(`ended by ${by ?? `code ${code}`}`, by === "SIGABRT");
      const gone = () => failed(signal.reason);
      child.on("message", tell).on("exit", ended);
      signal.addEventListener("abort", gone);
      forget.push(
        () => child.off("message", tell).off("exit", ended),
        () => signal.removeEventListener("abort", gone),
      );
      child.send(task, (error) => error && fail(`cannot be reached: ${error.message}`));
    });
  } finally {
    for (const end of forget) end();
  }
}
