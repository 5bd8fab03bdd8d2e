/** Requests to every operation of an OpenAPI document: some as they should be, most of them wrong in some way. */
import { zipSync } from "fflate";
import { ARPEGGIOS, FOUR_BARS, smallMidi } from "../harness.ts";
import { type Draw, drawn, oddText, oddValue, oneOf, type Schema } from "./values.ts";

interface Parameter {
  readonly name: string;
  readonly in: "path" | "query" | "header";
  readonly schema: Schema;
}

interface Operation {
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: Schema }>> };
}

export interface Described {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, Schema>> };
}

export interface FuzzRequest {
  readonly method: string;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array | null;
}

/** Ids of what there is, by the word that leads to it in a path. */
export type KnownIds = Readonly<Record<string, readonly string[]>>;

/** A way of `described` in turn, so that a run meets every operation as often as any other. */
export function requestOf(described: Described, known: KnownIds, turn: number, draw: Draw): FuzzRequest {
  const operations = Object.entries(described.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  );
  const { path, method, operation } = operations[turn % operations.length]!;
  const query = new URLSearchParams();
  const headers: Record<string, string> = {};
  for (const { name, in: place, schema } of operation.parameters ?? []) {
    const text = () => String(asText(drawn(schema, draw)));
    if (place === "query" && draw.chance() < 0.5) query.append(name, text());
    if (place === "query" && draw.chance() < draw.odd) query.append(`${name}[x]`, oddText(draw));
    if (place === "header" && draw.chance() < 0.5) headers[name] = headerSafe(text());
  }
  if (draw.chance() < draw.odd) query.append(oddText(draw), oddText(draw));
  const asked = `${pathOf(path, known, draw)}${query.size === 0 ? "" : `?${query}`}`;
  const { type, body } = bodyOf(operation, draw);
  if (type !== null) headers["content-type"] = type;
  if (body !== null) headers["content-length"] = String(body.length);
  return {
    method: draw.chance() < 0.01 ? oneOf(draw, ["PUT", "OPTIONS", "HEAD", "TRACE"]) : method.toUpperCase(),
    path: asked,
    headers: { ...headers, ...oddHeaders(draw) },
    body,
  };
}

function pathOf(path: string, known: KnownIds, draw: Draw): string {
  const words = path.split("/");
  return words
    .map((word, i) => {
      if (!word.startsWith("{")) return word;
      const ids = known[words[i - 1]!] ?? [];
      const id = ids.length > 0 && draw.chance() > draw.odd ? oneOf(draw, ids) : oddText(draw);
      return encodeOdd(id);
    })
    .join("/");
}

/** Of half a pair of surrogates there is no UTF-8. */
function encodeOdd(text: string): string {
  return encodeURIComponent(/[\ud800-\udfff]/u.test(text) ? "%FF" : text).replaceAll("%25FF", "%FF") || "%20";
}

function asText(value: unknown): unknown {
  return typeof value === "object" && value !== null ? JSON.stringify(value) : value;
}

function headerSafe(text: string): string {
  return text.replace(/[^\t\x20-\x7e]/g, "?");
}

function oddHeaders(draw: Draw): Record<string, string> {
  if (draw.chance() > draw.odd) return {};
  return oneOf<Record<string, string>>(draw, [
    { accept: "text/html" },
    { accept: "*/;q=x" },
    { range: "bytes=5-1" },
    { "if-none-match": '"a"' },
    { cookie: "ledgerline_session=%00; a" },
    { authorization: `Bearer ${"x".repeat(60)}` },
    { "content-encoding": "gzip" },
    { "content-encoding": "none-such" },
    { "content-type": "application/json; charset=none" },
    { "content-type": "multipart/form-data" },
    { "content-type": "" },
    { origin: "null" },
    { "x-forwarded-for": "::1, x" },
    { "idempotency-key": `"${"k".repeat(300)}"` },
    { "accept-language": "\u00ff" },
  ]);
}

function bodyOf({ requestBody }: Operation, draw: Draw): { type: string | null; body: Uint8Array | null } {
  if (requestBody === undefined) {
    return draw.chance() < draw.odd / 2
      ? { type: "text/plain", body: Buffer.from("x") }
      : { type: null, body: null };
  }
  const [[type, { schema }]] = Object.entries(requestBody.content) as [[string, { schema: Schema }]];
  if (type === "multipart/form-data") return formOf(schema, draw);
  const text = JSON.stringify(drawn(schema, draw)) ?? "";
  const sent = draw.chance() < draw.odd / 2 ? text.slice(0, Math.floor(text.length / 2)) : text;
  return { type: draw.chance() < draw.odd / 3 ? "text/plain" : type, body: Buffer.from(sent) };
}

const GOOD_FIELDS: Readonly<Record<string, readonly string[]>> = {
  chart: [FOUR_BARS, "| C7 | F7 |", "| Cm7:3 G7:1 | %"],
  form: ["blues-basic", "blues-quick-change"],
  key: ["F", "Gm", "Bb"],
  player: ["Ada", "Ida"],
  date: ["2026-03-01"],
  manifest: ['[{"file":"a.mid","chart":"| C7 |"}]', "file,form,key\na.mid,blues-basic,F\n", '{"takes":[{}]}'],
};

function formOf(schema: Schema, draw: Draw): { type: string; body: Uint8Array } {
  const parts: Uint8Array[] = [];
  const boundary = "fuzz-boundary";
  const add = (heading: string, content: Uint8Array) =>
    parts.push(
      Buffer.from(`--${boundary}\r\ncontent-disposition: form-data; ${heading}\r\n\r\n`),
      content,
      Buffer.from("\r\n"),
    );
  const fields = (schema.properties ?? {}) as Record<string, Schema>;
  for (const [name, field] of Object.entries(fields)) {
    if (name === "file" || draw.chance() > (name === "chart" ? 0.8 : 0.3)) continue;
    add(`name="${name}"`, Buffer.from(fieldOf(name, field, draw)));
  }
  for (let n = oneOf(draw, [1, 1, 1, 1, 0, 2, 3]); n > 0; n--) {
    const { name, bytes } = fileOf(draw);
    add(`name="${draw.chance() < draw.odd / 4 ? "other" : "file"}"; filename="${name}"`, bytes);
  }
  const end = draw.chance() < draw.odd / 4 ? "" : `--${boundary}--\r\n`;
  return {
    type: `multipart/form-data; boundary=${boundary}`,
    body: Buffer.concat([...parts, Buffer.from(end)]),
  };
}

function fieldOf(name: string, field: Schema, draw: Draw): string {
  if (name === "options") return JSON.stringify(drawn({ $ref: "#/components/schemas/Options" }, draw)) ?? "";
  const good = GOOD_FIELDS[name];
  if (good !== undefined && draw.chance() > draw.odd) return oneOf(draw, good);
  return String(asText(drawn(field, draw)));
}

const SCORE = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>P</part-name></score-part></part-list><part id="P1"><measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes><harmony><root><root-step>C</root-step></root><kind>dominant</kind></harmony><note><pitch><step>C</step><octave>5</octave></pitch><duration>2</duration></note><note><pitch><step>E</step><octave>5</octave></pitch><duration>2</duration></note></measure></part></score-partwise>`;

function fileOf(draw: Draw): { readonly name: string; readonly bytes: Uint8Array } {
  const midi = smallMidi(ARPEGGIOS, { inFour: draw.chance() < 0.5 });
  const whole = oneOf(draw, [
    { name: "a.mid", bytes: midi },
    { name: "a.musicxml", bytes: Buffer.from(SCORE) },
    {
      name: "a.zip",
      bytes: zipSync({
        "a.mid": midi,
        "x/b.mid": midi,
        "manifest.csv": Buffer.from("file,chart\na.mid,| C7 |\n"),
      }),
    },
    { name: "a.mxl", bytes: zipSync({ "a.musicxml": Buffer.from(SCORE) }) },
    { name: "a.wav", bytes: wave() },
    { name: "manifest.json", bytes: Buffer.from(JSON.stringify(oddValue(draw)) ?? "") },
    { name: oddText(draw).replace(/["\r\n\0]/g, "_"), bytes: Buffer.from(oddText(draw)) },
  ]);
  return draw.chance() < draw.odd * 2 ? { ...whole, bytes: damaged(whole.bytes, draw) } : whole;
}

/** A tenth of a second of silence: RIFF with one PCM chunk. */
function wave(): Uint8Array {
  const bytes = Buffer.alloc(44 + 1600);
  bytes.write("RIFF", 0);
  bytes.writeUInt32LE(36 + 1600, 4);
  bytes.write("WAVEfmt ", 8);
  bytes.writeUInt32LE(16, 16);
  for (const [value, at] of [
    [1, 20],
    [1, 22],
    [2, 32],
    [16, 34],
  ] as const)
    bytes.writeUInt16LE(value, at);
  bytes.writeUInt32LE(8000, 24);
  bytes.writeUInt32LE(16_000, 28);
  bytes.write("data", 36);
  bytes.writeUInt32LE(1600, 40);
  return bytes;
}

function damaged(bytes: Uint8Array, draw: Draw): Uint8Array {
  const changed = Buffer.from(bytes);
  if (draw.chance() < 0.4) return changed.subarray(0, Math.floor(draw.chance() * changed.length));
  for (let n = 1 + Math.floor(draw.chance() * 8); n > 0 && changed.length > 0; n--) {
    changed[Math.floor(draw.chance() * changed.length)] = Math.floor(draw.chance() * 256);
  }
  return changed;
}
