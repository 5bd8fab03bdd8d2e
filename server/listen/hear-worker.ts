/** Hears one recording in a thread of its own: bytes of sound go in, the document of heard notes comes out. */
import type { MessagePort } from "node:worker_threads";
import { listen, type Network, writeHeard } from "../../src/listen/index.ts";
import { Problem } from "../../src/take/index.ts";
import { type SerialisedProblem, serialiseProblem } from "../serialise-problem.ts";
import { decodeSound } from "./decode-sound.ts";
import { openNetwork } from "./network.ts";

export interface HearTask {
  readonly bytes: Uint8Array;
  /** Name of the file, for messages. */
  readonly name: string;
  /** Path of the network. */
  readonly network: string;
  /** Told the share that is done. */
  readonly port: MessagePort;
}

export type HearResult =
  | { readonly ok: true; readonly document: Uint8Array }
  | { readonly ok: false; readonly problem: SerialisedProblem };

let opened: { readonly file: string; readonly network: Promise<Network> } | null = null;

/** Opened when it is first asked, so that a refusal does not wait for it. */
function networkOf(file: string): Network {
  return async (bands, frames) => {
    if (opened?.file !== file) opened = { file, network: openNetwork(file) };
    return (await opened.network)(bands, frames);
  };
}

/** Gives back the memory of bytes that are read no more: the pool holds a task until its end, minutes later. */
function letGo({ buffer }: Uint8Array): void {
  structuredClone(buffer, { transfer: [buffer as ArrayBuffer] });
}

export default async function run({ bytes, name, network: file, port }: HearTask): Promise<HearResult> {
  try {
    const samples = await decodeSound(bytes, name);
    letGo(bytes);
    const heard = await listen(samples, networkOf(file), {
      progress: (share) => port.postMessage(share),
    });
    return { ok: true, document: writeHeard(heard) };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { ok: false, problem: serialiseProblem(error) };
  } finally {
    port.close();
  }
}
