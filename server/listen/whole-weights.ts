/**
 * Weights that the file keeps as float16 (corpus/listening/half.py), as float32 before the network is opened. The runtime
 * can do it too, but then does it in each run: a third more work and 100 MB more.
 */
import { bytesField, type Field, numberField, readFields, textOf, writeFields } from "./protobuf.ts";

/** Field numbers of onnx.proto3. */
const MODEL = { graph: 7 } as const;
const GRAPH = { node: 1, initializer: 5 } as const;
const NODE = { input: 1, output: 2, kind: 4 } as const;
const TENSOR = { type: 2, name: 8, raw: 9 } as const;
/** TensorProto.DataType. */
const [FLOAT, FLOAT16] = [1, 10] as const;

/** @param model bytes of an ONNX file */
export function wholeWeights(model: Uint8Array): Uint8Array {
  const whole = readFields(model);
  const graph = readFields(whole.find(({ number }) => number === MODEL.graph)!.bytes);
  const short = new Map<string, readonly Field[]>();
  for (const { number, bytes } of graph) {
    if (number !== GRAPH.initializer) continue;
    const fields = readFields(bytes);
    if (fields.find((field) => field.number === TENSOR.type)?.value === FLOAT16)
      short.set(textOf(fields.find((field) => field.number === TENSOR.name)!), fields);
  }
  const fields = graph.flatMap((field): Field[] => {
    if (field.number === GRAPH.initializer) {
      const name = textOf(readFields(field.bytes).find(({ number }) => number === TENSOR.name)!);
      return short.has(name) ? [] : [field];
    }
    if (field.number !== GRAPH.node) return [field];
    const node = readFields(field.bytes);
    const text = (number: number) => textOf(node.find((one) => one.number === number)!);
    const held = text(NODE.kind) === "Cast" ? short.get(text(NODE.input)) : undefined;
    return held === undefined ? [field] : [widened(held, text(NODE.output))];
  });
  return writeFields(
    whole.map((field) =>
      field.number === MODEL.graph ? bytesField(MODEL.graph, writeFields(fields)) : field,
    ),
  );
}

function widened(fields: readonly Field[], name: string): Field {
  const kept = fields.filter(
    ({ number }) => number !== TENSOR.type && number !== TENSOR.name && number !== TENSOR.raw,
  );
  const raw = fields.find(({ number }) => number === TENSOR.raw)!.bytes;
  const view = new DataView(raw.buffer, raw.byteOffset, raw.byteLength);
  const floats = Float32Array.from({ length: raw.byteLength / 2 }, (_, i) =>
    halfAt(view.getUint16(2 * i, true)),
  );
  return bytesField(
    GRAPH.initializer,
    writeFields([
      ...kept,
      numberField(TENSOR.type, FLOAT),
      bytesField(TENSOR.name, name),
      bytesField(TENSOR.raw, new Uint8Array(floats.buffer)),
    ]),
  );
}

/** [lit: IEEE 754, binary16: a sign, five bits of exponent from -15 on, ten of fraction] */
function halfAt(bits: number): number {
  const [exponent, fraction] = [(bits >> 10) & 31, bits & 1023];
  const size = exponent === 0 ? fraction * 2 ** -24 : (1 + fraction / 1024) * 2 ** (exponent - 15);
  return bits & 0x8000 ? -size : size;
}
