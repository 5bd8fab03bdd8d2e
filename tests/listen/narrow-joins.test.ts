/** The network as it is run, against the network as it is kept: the same answers in less memory. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import * as ort from "onnxruntime-web/wasm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { narrowJoins } from "../../server/listen/narrow-joins.ts";
import { bytesField, numberField, readFields, textOf, writeFields } from "../../server/listen/protobuf.ts";
import { SOUND } from "../../src/listen/index.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";

const NETWORK = fileURLToPath(new URL("../../src/listen/network/piano.onnx", import.meta.url));
const KEPT = new Uint8Array(readFileSync(NETWORK));
const NAMES = ["onset", "sounding", "loudness", "pedal", "company"];
/** Frames of a piece with its surroundings. */
const FRAMES = 400;

describe("fields of a message", () => {
  // [lit: protobuf.dev, Encoding: field 1 with the number 150, field 2 with the text "testing"]
  const message = Uint8Array.from([0x08, 0x96, 0x01, 0x12, 0x07, 0x74, 0x65, 0x73, 0x74, 0x69, 0x6e, 0x67]);

  test("are read and written as the format has them", () => {
    const [number, text] = readFields(message);
    expect(number).toMatchObject({ number: 1, value: 150 });
    expect([text!.number, textOf(text!)]).toEqual([2, "testing"]);
    expect(writeFields([numberField(1, 150), bytesField(2, "testing")])).toEqual(message);
  });

  test("of a network come back byte for byte; what is cut off is refused", () => {
    expect(Buffer.compare(writeFields(readFields(KEPT)), KEPT)).toBe(0);
    expect(() => readFields(message.subarray(0, 8))).toThrow(/cut off/);
    expect(() => readFields(message.subarray(0, 2))).toThrow(/cut off/);
  });
});

describe("a network whose joins were made narrow", () => {
  const memories: WebAssembly.Memory[] = [];
  const { Memory } = WebAssembly;

  beforeAll(() => {
    WebAssembly.Memory = class extends Memory {
      constructor(given: WebAssembly.MemoryDescriptor) {
        super(given);
        memories.push(this);
      }
    };
    ort.env.wasm.numThreads = 1;
    ort.env.wasm.wasmBinary = readFileSync(
      createRequire(import.meta.url).resolve("onnxruntime-web/ort-wasm-simd-threaded.wasm"),
    );
    ort.env.logLevel = "error";
  });
  afterAll(() => {
    WebAssembly.Memory = Memory;
  });

  const chance = chanceFrom(3);
  const spectrum = Float32Array.from({ length: FRAMES * SOUND.bands }, () => chance());
  const said = async (model: Uint8Array) => {
    const session = await ort.InferenceSession.create(model, {
      executionProviders: ["wasm"],
      enableMemPattern: false,
    });
    const given = { spectrum: new ort.Tensor("float32", spectrum, [1, FRAMES, SOUND.bands]) };
    const answer = await session.run(given, NAMES);
    const values = NAMES.map((name) => Float32Array.from(answer[name]!.data as Float32Array));
    await session.release();
    return values;
  };
  const megabytes = () =>
    Math.round(memories.reduce((sum, { buffer }) => sum + buffer.byteLength, 0) / 2 ** 20);

  test("says the same, and takes half the memory", async () => {
    const narrow = await said(narrowJoins(KEPT));
    const small = megabytes();
    expect(memories.length).toBeGreaterThan(0);
    const wide = await said(KEPT);
    for (const [i, values] of wide.entries())
      for (const [k, value] of values.entries())
        if (Math.abs(narrow[i]![k]! - value) > 1e-4)
          expect.fail(`${NAMES[i]} ${k}: ${narrow[i]![k]}, ${value}`);
    // Memory of WebAssembly only grows: what the wide one needed more is the difference.
    expect(small).toBeLessThan(100);
    expect(megabytes()).toBeGreaterThan(150);
  });

  test("is as it was where nothing is joined so", () => {
    const once = narrowJoins(KEPT);
    expect(Buffer.compare(narrowJoins(once), once)).toBe(0);
  });
});
