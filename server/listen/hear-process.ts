/**
 * Hears recordings in a process of its own, one after the other: the path of a recording comes in, the document of its
 * notes goes out. What WebAssembly took is given back by the end of the process only, and a decoder or a network that
 * takes its process down takes nothing else with it.
 */
import { readFile } from "node:fs/promises";
import { listen, type Network, writeHeard } from "../../src/listen/index.ts";
import { Problem } from "../../src/take/index.ts";
import { serialiseProblem } from "../serialise-problem.ts";
import { decodeTo } from "./decode-sound.ts";
import type { HearAnswer, HearTask } from "./hear-task.ts";
import { openNetwork } from "./network.ts";
import { createSoundFile } from "./sound-file.ts";

let opened: { readonly file: string; readonly network: Promise<Network> } | null = null;

/** Opened when it is first asked, so that a refusal does not wait for it. */
function networkOf(file: string): Network {
  return async (bands, frames) => {
    if (opened?.file !== file) opened = { file, network: openNetwork(file) };
    return (await opened.network)(bands, frames);
  };
}

const answer = (said: HearAnswer) => process.send?.(said);

async function hear({ file, name, network }: HearTask): Promise<void> {
  const sound = createSoundFile(`${file}.sound`);
  try {
    await decode(file, name, sound.put);
    const heard = await listen(sound, networkOf(network), {
      progress: (progress) => answer({ progress }),
    });
    answer({ document: writeHeard(heard) });
  } catch (error) {
    if (error instanceof Problem) answer({ problem: serialiseProblem(error) });
    else answer({ fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  } finally {
    sound.close();
  }
}

async function decode(file: string, name: string, take: (part: Float32Array) => void): Promise<void> {
  const bytes = new Uint8Array(await readFile(file));
  await decodeTo(bytes, name, take);
  // Collected at some time, 60 MB would lie beside the network until then.
  structuredClone(bytes.buffer, { transfer: [bytes.buffer] });
}

process.on("message", (task: HearTask) => void hear(task));
// The service ends it, or is gone: a signal to all of a terminal's or a unit's processes is for the service to act on.
process.on("disconnect", () => process.exit());
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => {});
