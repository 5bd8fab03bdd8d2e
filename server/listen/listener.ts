/** Recordings become documents of heard notes, one at a time, in a thread that ends when it has nothing to do. */
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { MessageChannel } from "node:worker_threads";
import { soundKind } from "../../src/listen/index.ts";
import { Problem } from "../../src/take/index.ts";
import { threadFile } from "../analysis/thread-file.ts";
import { openThreads, outOfMemory } from "../analysis/threads.ts";
import { problemFrom } from "../serialise-problem.ts";
import type { HearResult, HearTask } from "./hear-worker.ts";

/** The network among the sources, and where `npm run build` puts it: a package has no sources. */
const [SOURCE, BUILT] = ["../../src/listen/network/piano.onnx", "../../dist/threads/piano.onnx"].map((path) =>
  fileURLToPath(new URL(path, import.meta.url)),
) as [string, string];

/** Half an hour of sound takes a third of that; ten times as much is given to a slow machine. */
const TIME_LIMIT_MS = 90 * 60_000;
/** A recording is often sent twice: for a proposal of its chart, and to be kept. Their notes are remembered. */
const REMEMBERED = 8;

export interface HearOptions {
  /** Told the share that is done, 0 to 1. */
  readonly progress?: (share: number) => void;
  /** Ends the work. */
  readonly signal?: AbortSignal;
  /** Whoever asks needs the bytes no more: a recording's are moved into the thread, where they would be copied. */
  readonly given?: boolean;
}

export interface Listener {
  /**
   * The document of the notes that are heard in a recording; any other file as it is.
   *
   * @throws Problem for a recording that cannot be heard; the signal's reason when it was ended
   */
  sourceOf(bytes: Uint8Array, name: string, options?: HearOptions): Promise<Uint8Array>;
  close(): Promise<void>;
}

/** @param network path of the network */
export function createListener(network: string = existsSync(SOURCE) ? SOURCE : BUILT): Listener {
  const pool = openThreads({ least: 0, most: 1, idleMs: 60_000 });
  const remembered = new Map<string, Uint8Array>();
  // Each is sent when its turn comes: its time limit does not count the waiting, and none is left in the pool's queue
  // when the thread of another ends by a fault.
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <Result>(work: () => Promise<Result>): Promise<Result> => {
    const result = turn.then(work);
    turn = result.catch(() => {});
    return result;
  };
  const hear = async (bytes: Uint8Array, name: string, { progress, signal, given }: HearOptions) => {
    signal?.throwIfAborted();
    const { port1, port2 } = new MessageChannel();
    if (progress !== undefined) port1.on("message", progress);
    port1.unref();
    const task: HearTask = { bytes, name, network, port: port2 };
    const limit = AbortSignal.timeout(TIME_LIMIT_MS);
    try {
      const result: HearResult = await pool.run(task, {
        filename: threadFile("hear"),
        transferList: given && standsAlone(bytes) ? [port2, bytes.buffer] : [port2],
        signal: signal === undefined ? limit : AbortSignal.any([limit, signal]),
      });
      if (result.ok) {
        // The thread's last words may come after its result.
        progress?.(1);
        return result.document;
      }
      throw problemFrom(result.problem);
    } catch (error) {
      signal?.throwIfAborted();
      if (limit.aborted) throw tooLong();
      if (outOfMemory(error)) throw tooLarge();
      throw error;
    } finally {
      port1.close();
    }
  };
  return {
    async sourceOf(bytes, name, options = {}) {
      if (soundKind(bytes) === null) return bytes;
      const key = createHash("sha256").update(bytes).digest("hex");
      const known = remembered.get(key);
      if (known !== undefined) return known;
      const document = await inTurn(() => hear(bytes, name, options));
      remembered.set(key, document);
      for (const oldest of remembered.keys()) {
        if (remembered.size <= REMEMBERED) break;
        remembered.delete(oldest);
      }
      return document;
    },
    close: () => pool.destroy(),
  };
}

/** Whether bytes are all of what holds them; what holds others too cannot be moved. */
function standsAlone(bytes: Uint8Array): bytes is Uint8Array<ArrayBuffer> {
  return bytes.buffer instanceof ArrayBuffer && bytes.byteLength === bytes.buffer.byteLength;
}

function tooLong(): Problem {
  return new Problem(
    "listening-too-long",
    "Listening did not come to an end",
    null,
    "Send a shorter excerpt.",
  );
}

function tooLarge(): Problem {
  return new Problem(
    "listening-too-large",
    "Listening needed more memory than a thread may use",
    null,
    "Send a shorter excerpt.",
  );
}
