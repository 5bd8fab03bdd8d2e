/**
 * Messages in the wire format of Protocol Buffers, as a list of their fields, so that some can be exchanged and all
 * others written back as they were. [protobuf.dev, Encoding: a tag is the field's number and its wire type; 0 is a
 * varint, 1 eight bytes, 2 a length and so many bytes, 5 four bytes]
 */
export interface Field {
  readonly number: number;
  readonly wire: number;
  /** Of a varint. */
  readonly value: number;
  /** What comes after the tag, without a length before it. */
  readonly bytes: Uint8Array;
}

/** @throws RangeError for a message that is cut off */
export function readFields(message: Uint8Array): Field[] {
  const fields: Field[] = [];
  for (let at = 0; at < message.length; ) {
    const tag = readVarint(message, at);
    const [number, wire] = [Math.floor(tag.value / 8), tag.value % 8];
    const head = wire === 0 || wire === 2 ? readVarint(message, tag.end) : { value: 0, end: tag.end };
    const start = wire === 2 ? head.end : tag.end;
    const end = wire === 0 ? head.end : start + (wire === 2 ? head.value : wire === 1 ? 8 : 4);
    if (end > message.length) throw new RangeError("the message is cut off");
    fields.push({ number, wire, value: wire === 0 ? head.value : 0, bytes: message.subarray(start, end) });
    at = end;
  }
  return fields;
}

export function writeFields(fields: readonly Field[]): Uint8Array {
  const parts = fields.flatMap(({ number, wire, bytes }) => [
    varint(number * 8 + wire),
    ...(wire === 2 ? [varint(bytes.length)] : []),
    bytes,
  ]);
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** A field of bytes, of a text or of a message. */
export function bytesField(number: number, content: Uint8Array | string): Field {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return { number, wire: 2, value: 0, bytes };
}

export function numberField(number: number, value: number): Field {
  return { number, wire: 0, value, bytes: varint(value) };
}

export function textOf({ bytes }: Field): string {
  return new TextDecoder().decode(bytes);
}

/** Seven bits a byte, the lowest first; the highest bit says that more follow. */
function varint(value: number): Uint8Array {
  const bytes: number[] = [];
  let rest = value;
  for (; rest >= 128; rest = Math.floor(rest / 128)) bytes.push((rest % 128) + 128);
  return Uint8Array.from([...bytes, rest]);
}

function readVarint(message: Uint8Array, from: number): { readonly value: number; readonly end: number } {
  let value = 0;
  for (let at = from, scale = 1; at < message.length; at++, scale *= 128) {
    value += (message[at]! % 128) * scale;
    if (message[at]! < 128) return { value, end: at + 1 };
  }
  throw new RangeError("the message is cut off");
}
