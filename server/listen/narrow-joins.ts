/**
 * The same network in less memory. Where it looks at several places of one tensor at once (the partials of a key), it
 * cuts them out, joins them as channels and weighs what was joined: a frame then takes 186 KB twice, most of all that
 * listening takes. Weighed one by one and added up, the same places never lie in memory together.
 *
 * The file is that of ONNX (onnx.proto3, whose field numbers stand below): what it says stays the same but for the order
 * in which numbers are added.
 */
import { bytesField, type Field, numberField, readFields, textOf, writeFields } from "./protobuf.ts";

const MODEL = { graph: 7 } as const;
const GRAPH = { node: 1, initializer: 5 } as const;
const NODE = { input: 1, output: 2, name: 3, kind: 4, attribute: 5 } as const;
const ATTRIBUTE = { name: 1, int: 3 } as const;
const TENSOR = { dims: 1, type: 2, name: 8, raw: 9 } as const;
/** TensorProto.DataType.FLOAT, of four bytes. */
const FLOAT = 1;

interface Node {
  readonly kind: string;
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
  readonly fields: readonly Field[];
}

interface Weights {
  readonly name: string;
  /** Outputs, inputs, height and width of a convolution. */
  readonly dims: readonly number[];
  readonly raw: Uint8Array;
}

/** A join of places, and the convolution of one step that weighs it. */
interface Join {
  readonly places: readonly string[];
  readonly weigh: Node;
  readonly weights: Weights;
}

/** @param model bytes of an ONNX file */
export function narrowJoins(model: Uint8Array): Uint8Array {
  const whole = readFields(model);
  const graph = readFields(whole.find(({ number }) => number === MODEL.graph)!.bytes);
  const nodes = new Map(
    graph.filter(({ number }) => number === GRAPH.node).map((field) => [field, nodeOf(field)] as const),
  );
  const weights = new Map(
    graph
      .filter(({ number }) => number === GRAPH.initializer)
      .flatMap((field) => {
        const read = weightsOf(field);
        return read === null ? [] : [[read.name, { ...read, field }] as const];
      }),
  );
  const joins = joinsIn([...nodes.values()], weights);
  const spent = new Set<Field>(joins.map(({ weights: { name } }) => weights.get(name)!.field));
  const weighed = new Map(joins.map((join) => [join.weigh, join]));
  const joined = new Set(joins.map(({ weigh }) => weigh.inputs[0]!));
  const fields = graph.flatMap((field): Field[] => {
    if (spent.has(field)) return [];
    const node = nodes.get(field);
    if (node === undefined) return [field];
    if (node.kind === "Concat" && joined.has(node.outputs[0]!)) return [];
    const join = weighed.get(node);
    return join === undefined ? [field] : addedUp(join);
  });
  return writeFields(
    whole.map((field) =>
      field.number === MODEL.graph ? bytesField(MODEL.graph, writeFields(fields)) : field,
    ),
  );
}

function joinsIn(nodes: readonly Node[], weights: ReadonlyMap<string, Weights>): Join[] {
  const maker = new Map(nodes.flatMap((node) => node.outputs.map((name) => [name, node] as const)));
  const users = new Map<string, Node[]>();
  for (const node of nodes)
    for (const name of node.inputs) users.set(name, [...(users.get(name) ?? []), node]);
  return nodes.flatMap((concat): Join[] => {
    if (concat.kind !== "Concat" || attributeOf(concat, "axis") !== 1) return [];
    const cut = concat.inputs.map((name) => maker.get(name));
    const from = cut[0]?.inputs[0];
    if (!cut.every((node) => node?.kind === "Slice" && node.inputs[0] === from)) return [];
    const [weigh, ...others] = users.get(concat.outputs[0]!) ?? [];
    if (weigh?.kind !== "Conv" || others.length > 0) return [];
    const held = weights.get(weigh.inputs[1]!);
    if (held === undefined || users.get(held.name)!.length > 1) return [];
    const [, inputs = 0, height, width] = held.dims;
    if (height !== 1 || width !== 1 || inputs % cut.length !== 0) return [];
    return [{ places: concat.inputs, weigh, weights: held }];
  });
}

/**
 * A convolution for each place, whose results are added one by one, and the weights of each. The runtime goes backwards
 * from the end and takes of two inputs first the one whose node stands later: the sum so far comes after all that is
 * added to it, so that each place is cut out, weighed and added before the next one.
 */
function addedUp({ places, weigh, weights }: Join): Field[] {
  const [output] = weigh.outputs as [string];
  const attributes = weigh.fields.filter(({ number }) => number === NODE.attribute);
  const own = (i: number) => `${output}/${i}`;
  const weighing = places.flatMap((place, i) => {
    const part = `${weights.name}/${i}`;
    // The first has what is added once.
    const given = [place, part, ...(i === 0 ? weigh.inputs.slice(2) : [])];
    return [partOf(weights, i, places.length, part), nodeField("Conv", given, own(i), attributes)];
  });
  const last = places.length - 1;
  const adding = places.slice(1).map((_, k) => {
    const before = k === 0 ? own(0) : `${output}/to/${k}`;
    return nodeField("Add", [before, own(k + 1)], k + 1 === last ? output : `${output}/to/${k + 1}`, []);
  });
  return [...weighing, ...adding];
}

/** The weights of the inputs that one place brings: of each output, a stretch. */
function partOf({ dims, raw }: Weights, i: number, count: number, name: string): Field {
  const [outputs = 0, inputs = 0] = dims;
  const [row, part] = [inputs * 4, (inputs / count) * 4];
  const own = new Uint8Array(outputs * part);
  for (let o = 0; o < outputs; o++)
    own.set(raw.subarray(o * row + i * part, o * row + (i + 1) * part), o * part);
  return bytesField(
    GRAPH.initializer,
    writeFields([
      ...[outputs, inputs / count, 1, 1].map((dim) => numberField(TENSOR.dims, dim)),
      numberField(TENSOR.type, FLOAT),
      bytesField(TENSOR.name, name),
      bytesField(TENSOR.raw, own),
    ]),
  );
}

function nodeField(
  kind: string,
  inputs: readonly string[],
  output: string,
  attributes: readonly Field[],
): Field {
  return bytesField(
    GRAPH.node,
    writeFields([
      ...inputs.map((name) => bytesField(NODE.input, name)),
      bytesField(NODE.output, output),
      bytesField(NODE.name, output),
      bytesField(NODE.kind, kind),
      ...attributes,
    ]),
  );
}

function nodeOf({ bytes }: Field): Node {
  const fields = readFields(bytes);
  const texts = (number: number) => fields.filter((field) => field.number === number).map(textOf);
  return { kind: texts(NODE.kind)[0] ?? "", inputs: texts(NODE.input), outputs: texts(NODE.output), fields };
}

function attributeOf({ fields }: Node, name: string): number | null {
  for (const { number, bytes } of fields) {
    if (number !== NODE.attribute) continue;
    const own = readFields(bytes);
    if (own.some((field) => field.number === ATTRIBUTE.name && textOf(field) === name))
      return own.find((field) => field.number === ATTRIBUTE.int)?.value ?? null;
  }
  return null;
}

/** Null for what is no tensor of floats in bytes. */
function weightsOf({ bytes }: Field): Weights | null {
  const fields = readFields(bytes);
  const one = (number: number) => fields.find((field) => field.number === number);
  const [type, name, raw] = [one(TENSOR.type), one(TENSOR.name), one(TENSOR.raw)];
  if (type?.value !== FLOAT || name === undefined || raw === undefined) return null;
  // Either a number each, or all of them packed.
  const dims = fields
    .filter(({ number }) => number === TENSOR.dims)
    .flatMap(({ wire, value, bytes: packed }) => (wire === 0 ? [value] : [...packed]));
  return { name: textOf(name), dims, raw: raw.bytes };
}
