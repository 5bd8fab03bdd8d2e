/** The network that hears, run by WebAssembly on one processor. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import * as ort from "onnxruntime-web/wasm";
import { COMPANY_WIDTH, KEYS, type Network, SOUND } from "../../src/listen/index.ts";
import { Problem } from "../../src/take/index.ts";
import { narrowJoins } from "./narrow-joins.ts";

const RUNTIME = "ort-wasm-simd-threaded.wasm";

/** `npm run build` puts the runtime beside the thread's own file; the package is a tool of development. */
async function readRuntime(): Promise<Uint8Array> {
  try {
    return await readFile(new URL(`./${RUNTIME}`, import.meta.url));
  } catch {
    return await readFile(createRequire(import.meta.url).resolve(`onnxruntime-web/${RUNTIME}`));
  }
}

async function readNetwork(file: string): Promise<Uint8Array> {
  try {
    return await readFile(file);
  } catch {
    throw new Problem(
      "network-missing",
      "The network that hears is not there, so recordings of sound cannot be read",
      file,
      "Install the program anew, or send MIDI or MusicXML.",
    );
  }
}

/** @param file path of the network in ONNX; its contract is in corpus/listening/README.md */
export async function openNetwork(file: string): Promise<Network> {
  ort.env.wasm.numThreads = 1;
  ort.env.wasm.wasmBinary ??= await readRuntime();
  ort.env.logLevel = "error";
  const session = await ort.InferenceSession.create(narrowJoins(await readNetwork(file)), {
    executionProviders: ["wasm"],
    // A plan of the memory for each length of piece costs 40 MB and saves no time.
    enableMemPattern: false,
  });
  // Compiled once in a process, and 14 MB.
  ort.env.wasm.wasmBinary = new ArrayBuffer(0);
  return async (bands, frames) => {
    const spectrum = new ort.Tensor("float32", bands, [1, frames, SOUND.bands]);
    const said = await session.run({ spectrum }, ["onset", "sounding", "loudness", "pedal", "company"]);
    const values = (name: string, width: number): Float32Array => {
      const { data } = said[name]!;
      if (!(data instanceof Float32Array) || data.length !== frames * width) {
        throw new Error(`the network's ${name} is not as its contract says`);
      }
      return data;
    };
    return {
      onset: values("onset", KEYS),
      sounding: values("sounding", KEYS),
      loudness: values("loudness", KEYS),
      pedal: values("pedal", 1),
      company: values("company", COMPANY_WIDTH),
    };
  };
}
