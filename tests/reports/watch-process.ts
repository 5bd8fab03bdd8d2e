/**
 * How soon a server answers `/health` while something is done, and what its thread was at meanwhile. Of the slowest
 * answer it is told how long the thread that answers had a processor (it was blocked by its own work) and how long it
 * waited for one (the machine was busy), as Linux counts them for each thread in `/proc/PID/task/ID/schedstat`
 * (Documentation/scheduler/sched-stats.rst of the kernel: nanoseconds on a processor, nanoseconds on a run queue).
 */
import { readFileSync, writeFileSync } from "node:fs";
import { Agent, get } from "node:http";

const HEALTH_EVERY_MS = 20;

/** Milliseconds. */
interface ThreadTime {
  readonly worked: number;
  readonly waited: number;
}

interface Answered extends ThreadTime {
  /** From the question to the end of its answer. */
  readonly took: number;
  /** How long whoever asked waited for a processor meanwhile. */
  readonly askerWaited: number;
}

export interface Watched {
  readonly seconds: number;
  /** Soonest first. */
  readonly answers: readonly Answered[];
  /** Of the thread that answers, as a share of the time that passed. */
  readonly worked: number;
  readonly waited: number;
  /** Largest resident memory of the process meanwhile, MB. */
  readonly peakMb: number;
}

/** @param pid of the process that answers at `api` */
export async function watchWhile(pid: number, api: string, work: () => Promise<unknown>): Promise<Watched> {
  // A connection that stands: what is measured is the answer, and not how one is opened.
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  forgetPeak(pid);
  let done = false;
  const began = performance.now();
  const before = threadTime(pid);
  const working = work().finally(() => {
    done = true;
  });
  const answers: Answered[] = [];
  while (!done) {
    const from = threadTime(pid);
    const asker = threadTime(process.pid);
    const asked = performance.now();
    await ask(`${api}/health`, agent);
    const took = performance.now() - asked;
    const to = threadTime(pid);
    answers.push({
      took,
      worked: to.worked - from.worked,
      waited: to.waited - from.waited,
      askerWaited: threadTime(process.pid).waited - asker.waited,
    });
    await new Promise((go) => setTimeout(go, HEALTH_EVERY_MS));
  }
  await working;
  const after = threadTime(pid);
  const passed = performance.now() - began;
  agent.destroy();
  return {
    seconds: passed / 1000,
    answers: answers.sort((a, b) => a.took - b.took),
    worked: (after.worked - before.worked) / passed,
    waited: (after.waited - before.waited) / passed,
    peakMb: peakMb(pid),
  };
}

function ask(url: string, agent: Agent): Promise<void> {
  return new Promise((done, failed) => {
    get(url, { agent }, (response) => {
      response.resume().once("end", done).on("error", failed);
    }).on("error", failed);
  });
}

/** Of the thread that a process began with: the one in which Node.js runs the program. */
function threadTime(pid: number): ThreadTime {
  const [worked, waited] = readFileSync(`/proc/${pid}/task/${pid}/schedstat`, "utf8").split(" ");
  return { worked: Number(worked) / 1e6, waited: Number(waited) / 1e6 };
}

/** As proc(5) has it: 5 in clear_refs begins the greatest resident size anew. */
function forgetPeak(pid: number): void {
  writeFileSync(`/proc/${pid}/clear_refs`, "5");
}

function peakMb(pid: number): number {
  return Math.round(Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))![1]) / 1024);
}
