/**
 * Recordings become documents of heard notes, one at a time, in a process that ends when it has nothing to do. Those
 * that wait for their turn lie on disk, so that none takes memory here.
 */
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { soundKind } from "../../src/listen/index.ts";
import { Problem } from "../../src/take/index.ts";
import { problemFrom } from "../serialise-problem.ts";
import { newUploadFolder, removeUploadFolder } from "../upload-folder.ts";
import { createHearer, HearerEnded } from "./hearer.ts";

/** The network among the sources, and where `npm run build` puts it: a package has no sources. */
const [SOURCE, BUILT] = ["../../src/listen/network/piano.onnx", "../../dist/threads/piano.onnx"].map((path) =>
  fileURLToPath(new URL(path, import.meta.url)),
) as [string, string];

/** Half an hour of sound takes a third of that; ten times as much is given to a slow machine. */
const TIME_LIMIT_MS = 90 * 60_000;
/** A recording is often sent twice: for a proposal of its chart, and to be kept. Their notes are remembered. */
const REMEMBERED = 8;
/** The process is kept so long for the next recording. */
const IDLE_MS = 60_000;

export interface HearOptions {
  /** Told the share that is done, 0 to 1. */
  readonly progress?: (share: number) => void;
  /** Ends the work. */
  readonly signal?: AbortSignal;
  /** Whoever asks needs the bytes no more: the memory of a recording's is given back while it is heard. */
  readonly given?: boolean;
}

export interface Listener {
  /**
   * The document of the notes that are heard in a recording; any other file as it is.
   *
   * @throws Problem for a recording that cannot be heard; `HearerEnded` when the process that hears ended over it; the
   * signal's reason when it was ended
   */
  sourceOf(bytes: Uint8Array, name: string, options?: HearOptions): Promise<Uint8Array>;
  close(): Promise<void>;
}

/**
 * @param network path of the network
 * @param timeLimit milliseconds after which a recording is given up; waiting for its turn does not count
 */
export function createListener(
  network: string = existsSync(SOURCE) ? SOURCE : BUILT,
  timeLimit = TIME_LIMIT_MS,
): Listener {
  const hearer = createHearer(IDLE_MS);
  const remembered = new Map<string, Uint8Array>();
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <Result>(work: () => Promise<Result>): Promise<Result> => {
    const result = turn.then(work);
    turn = result.catch(() => {});
    return result;
  };
  const hear = async (file: string, name: string, { progress, signal }: HearOptions) => {
    const limit = AbortSignal.timeout(timeLimit);
    try {
      const ended = signal === undefined ? limit : AbortSignal.any([limit, signal]);
      const answer = await hearer.hear({ file, name, network }, progress ?? (() => {}), ended);
      if ("document" in answer) return answer.document;
      throw problemFrom(answer.problem);
    } catch (error) {
      signal?.throwIfAborted();
      if (limit.aborted) throw tooLong();
      if (error instanceof HearerEnded && error.outOfMemory) throw tooLarge();
      throw error;
    }
  };
  const hearBytes = async (bytes: Uint8Array, name: string, options: HearOptions) => {
    // Goes with what a dead process left behind.
    const folder = await newUploadFolder();
    try {
      const file = join(folder, "recording");
      await writeFile(file, bytes);
      if (options.given && standsAlone(bytes)) letGo(bytes);
      return await inTurn(() => hear(file, name, options));
    } finally {
      await removeUploadFolder(folder);
    }
  };
  return {
    async sourceOf(bytes, name, options = {}) {
      if (soundKind(bytes) === null) return bytes;
      const key = createHash("sha256").update(bytes).digest("hex");
      const known = remembered.get(key);
      if (known !== undefined) return known;
      const document = await hearBytes(bytes, name, options);
      remembered.set(key, document);
      for (const oldest of remembered.keys()) {
        if (remembered.size <= REMEMBERED) break;
        remembered.delete(oldest);
      }
      return document;
    },
    close: async () => hearer.close(),
  };
}

/** Whether bytes are all of what holds them; what holds others too cannot be moved. */
function standsAlone(bytes: Uint8Array): bytes is Uint8Array<ArrayBuffer> {
  return bytes.buffer instanceof ArrayBuffer && bytes.byteLength === bytes.buffer.byteLength;
}

/** Gives back the memory of bytes that are read no more, whoever still names them. */
function letGo({ buffer }: Uint8Array<ArrayBuffer>): void {
  structuredClone(buffer, { transfer: [buffer] });
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
    "Listening needed more memory than it may use",
    null,
    "Send a shorter excerpt.",
  );
}
