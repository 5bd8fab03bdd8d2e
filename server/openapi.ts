/** The OpenAPI 3.1 document, made from the same definitions that the routes are checked and typed by. */
import { readFileSync } from "node:fs";
import { z } from "zod";
import { type JsonSchema, jsonSchemaOf } from "../src/export/index.ts";
import { type Access, SESSION_COOKIE } from "./access.ts";
import { sentKey } from "./contract/fields.ts";
import { problemSchema } from "./contract/problem.ts";
import type { AnswerKind, Route } from "./route.ts";
import { BUNDLE_FILES } from "./uploads.ts";

/** Version of the program, by semantic versioning; that of the analysis is told apart from it. */
const VERSION = (
  JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8")) as { version: string }
).version;

/** What a resource is, by the first word of its path. */
export const TAGS: Readonly<Record<string, { readonly name: string; readonly description: string }>> = {
  health: { name: "Service", description: "Whether the service lives and can work." },
  ready: { name: "Service", description: "Whether the service lives and can work." },
  backup: { name: "Service", description: "Whether the service lives and can work." },
  metrics: { name: "Service", description: "Whether the service lives and can work." },
  analyse: { name: "Analysis", description: "Accounts of files that are not kept." },
  listen: { name: "Analysis", description: "Accounts of files that are not kept." },
  takes: { name: "Takes", description: "Files that are kept, their accounts, and what is made of them." },
  forms: {
    name: "Charts",
    description: "Chord charts: built-in forms, stored charts, and proposals for a file.",
  },
  chart: {
    name: "Charts",
    description: "Chord charts: built-in forms, stored charts, and proposals for a file.",
  },
  charts: {
    name: "Charts",
    description: "Chord charts: built-in forms, stored charts, and proposals for a file.",
  },
  shapes: { name: "Hand", description: "Hand shapes and where they may stand on a chart." },
  placements: { name: "Hand", description: "Hand shapes and where they may stand on a chart." },
  lenses: { name: "Lens", description: "What teacher and student work on, as data." },
  "lens-measures": { name: "Lens", description: "What teacher and student work on, as data." },
  lesson: { name: "Lessons", description: "Lessons without a take, and handing them out." },
  lessons: { name: "Lessons", description: "Lessons without a take, and handing them out." },
  ideas: { name: "Ideas", description: "Patterns that are named, and where they are played." },
  search: { name: "Ideas", description: "Patterns that are named, and where they are played." },
  compare: { name: "Comparison", description: "Takes, choruses, players and classes next to each other." },
  deleted: { name: "Takes", description: "Files that are kept, their accounts, and what is made of them." },
  class: { name: "Players", description: "Whose takes are kept, and how they went over time." },
  players: { name: "Players", description: "Whose takes are kept, and how they went over time." },
  corpora: { name: "Corpora", description: "Many takes that are studied together." },
  tables: { name: "Corpora", description: "Many takes that are studied together." },
  jobs: { name: "Corpora", description: "Many takes that are studied together." },
  tokens: { name: "Access", description: "Tokens and sessions: who may ask for what." },
  audit: { name: "Access", description: "Tokens and sessions: who may ask for what." },
  session: { name: "Access", description: "Tokens and sessions: who may ask for what." },
};

/** Who may ask, where the service needs a token at all. */
export const ASKERS: Readonly<Record<Access, string>> = {
  open: "Anybody may ask.",
  member: "Any token but that of a monitor may ask; each sees what is within its reach.",
  shared: "Any token but that of a monitor or a student may ask.",
  working: "Any token may ask but that of a link, a student or a monitor.",
  teaching: "Owners and teachers may ask.",
  owner: "Owners may ask.",
  operating: "Owners and monitors may ask.",
  take: "Whoever the take is within reach of may read it; owners and the teacher of its player may change it.",
  player: "Owners and the teacher of the player may ask.",
  own: "Owners, the teacher of the player and the player's own link may ask.",
  "own-take": "Owners, the teacher of the take's player and that player's own link may ask.",
  corpus: "Owners and researchers of the corpus may ask.",
  job: "Owners and researchers of the job's corpus may ask.",
};

export function openApi(routes: readonly Route[]): JsonSchema {
  const schemas = new Components();
  schemas.of(problemSchema, "output");
  const paths: Record<string, JsonSchema> = {};
  for (const route of routes) {
    const path = `/api${route.path.replace(/:(\w+)/g, "{$1}")}`;
    paths[path] = { ...paths[path], [route.method]: operation(route, schemas) };
  }
  const tags = new Map(Object.values(TAGS).map((tag) => [tag.name, tag]));
  return {
    openapi: "3.1.0",
    info: {
      title: "Ledgerline",
      version: VERSION,
      description:
        "An account of every note of an improvised solo against its chart. Every field says its unit: seconds, quarter-note beats, semitones, MIDI numbers, shares of 1. Fields and routes are only ever added.",
      license: { name: "AGPL-3.0-or-later", identifier: "AGPL-3.0-or-later" },
    },
    servers: [{ url: "/", description: "this service" }],
    tags: [...tags.values()],
    security: [{ token: [] }, { session: [] }],
    paths,
    components: {
      schemas: schemas.all,
      securitySchemes: {
        token: {
          type: "http",
          scheme: "bearer",
          description: "A token of this service. On the loopback address none is needed.",
        },
        session: {
          type: "apiKey",
          in: "cookie",
          name: SESSION_COOKIE,
          description: "What POST /api/session keeps in the browser.",
        },
      },
    },
  };
}

/**
 * The name of an operation, for generated clients: the way through its path, singular where one is named.
 *
 * @example GET /takes/:id/analysis -> "getTakeAnalysis"; POST /takes -> "postTakes"; PATCH /takes/:id -> "patchTake"
 */
export function operationId({ method, path }: Pick<Route, "method" | "path">): string {
  const steps = path.split("/").filter((step) => step !== "");
  const words = steps.flatMap((step, i) => {
    if (step.startsWith(":")) return [];
    const named = steps[i + 1]?.startsWith(":") ? singular(step) : step;
    return named.split(/[^a-zA-Z]+/).map((word) => word.charAt(0).toUpperCase() + word.slice(1));
  });
  return `${method}${words.join("")}`;
}

/** Words of paths whose singular is not the word without its last letter. */
const SINGULARS: Readonly<Record<string, string>> = { corpora: "corpus", lenses: "lens", lens: "lens" };

function singular(word: string): string {
  return SINGULARS[word] ?? word.replace(/s$/, "");
}

function operation(route: Route, schemas: Components): JsonSchema {
  const open = route.access === "open";
  return {
    operationId: operationId(route),
    tags: [TAGS[route.path.split("/")[1]!]?.name ?? "Other"],
    summary: route.summary,
    description: ASKERS[route.access],
    ...(open ? { security: [] } : {}),
    parameters: [
      ...parameters(route.params, "path"),
      ...parameters(route.query, "query"),
      ...(route.repeatable ? parameters(z.object({ "Idempotency-Key": sentKey.optional() }), "header") : []),
    ],
    ...(route.accepts === "none" ? {} : { requestBody: requestBody(route, schemas) }),
    responses: {
      ...Object.fromEntries(
        Object.entries(route.answers).map(([status, kind]) => [status, response(kind, schemas)]),
      ),
      default: {
        description: "what is wrong, where, and what to do",
        content: { "application/problem+json": { schema: schemas.of(problemSchema, "output") } },
      },
    },
  };
}

function response(kind: AnswerKind, schemas: Components): JsonSchema {
  const content: JsonSchema = {};
  if (kind.schema !== undefined) content["application/json"] = { schema: schemas.of(kind.schema, "output") };
  for (const type of kind.type === undefined ? [] : [kind.type].flat()) {
    const lines = kind.line !== undefined && LINES.test(type);
    content[type] = { schema: lines ? linesOf(kind.line!, type, schemas) : TEXT.test(type) ? WORDS : BYTES };
  }
  return { description: kind.description, ...(Object.keys(content).length === 0 ? {} : { content }) };
}

/** Media types whose lines or events are values of one shape, and those that are read as text. */
const LINES = /^(application\/x-ndjson|text\/event-stream)/;
const TEXT = /^text\/|\+xml$|^application\/x-ndjson/;

const WORDS = { type: "string" };
/** JSON Schema knows no bytes; by this format, older than OpenAPI 3.1, generators still tell them from text. */
const BYTES = { type: "string", format: "binary" };

/** A stream is text to JSON Schema; what a line of it, or the data of an event, holds is said beside it. */
function linesOf(line: z.ZodType, type: string, schemas: Components): JsonSchema {
  return { type: "string", contentMediaType: type, contentSchema: schemas.of(line, "output") };
}

function requestBody(route: Route, schemas: Components): JsonSchema {
  const schema = schemas.of(route.published ?? route.body, "input");
  if (route.accepts === "json") {
    const example = route.example?.body;
    return {
      required: true,
      content: { "application/json": { schema, ...(example === undefined ? {} : { example }) } },
    };
  }
  const one = { ...BYTES, contentMediaType: "application/octet-stream" };
  const file =
    route.accepts === "forms"
      ? { type: "array", items: one, maxItems: BUNDLE_FILES, description: "the files" }
      : { ...one, description: "the file" };
  const properties = { ...(schema.properties as JsonSchema), file };
  const needed = [
    ...((schema.required as string[] | undefined) ?? []),
    ...(route.accepts === "form" ? ["file"] : []),
  ];
  const required = needed.length === 0 ? {} : { required: needed };
  return {
    required: true,
    content: { "multipart/form-data": { schema: { ...schema, properties, ...required } } },
  };
}

function parameters(schema: z.ZodType, place: "path" | "query" | "header"): JsonSchema[] {
  const json = jsonSchemaOf(schema, "input");
  const required = new Set((json.required as string[] | undefined) ?? []);
  return Object.entries((json.properties as Record<string, JsonSchema> | undefined) ?? {}).map(
    ([name, { description, ...value }]) => ({
      name,
      in: place,
      description,
      required: place === "path" || required.has(name),
      schema: value,
    }),
  );
}

/** The parts of the schemas that have an id, each told once. */
class Components {
  readonly all: Record<string, JsonSchema> = {};

  /** The schema with its parts by reference. What is sent may leave defaults out, so a part of it may differ. */
  of(schema: z.ZodType, io: "input" | "output"): JsonSchema {
    const { $schema: _, $defs = {}, ...rest } = jsonSchemaOf(schema, io);
    const parts = $defs as Record<string, JsonSchema>;
    const names = new Map(Object.keys(parts).map((id) => [id, id]));
    const renamed = (value: unknown) => withNames(value, names) as JsonSchema;
    for (const [id, part] of Object.entries(parts)) {
      const known = this.all[id];
      if (known !== undefined && JSON.stringify(known) !== JSON.stringify(renamed(part))) {
        names.set(id, `${id}${io === "input" ? "Input" : ""}`);
      }
    }
    for (const [id, part] of Object.entries(parts)) this.all[names.get(id)!] = renamed(part);
    return renamed(rest);
  }
}

function withNames(value: unknown, names: ReadonlyMap<string, string>): unknown {
  if (Array.isArray(value)) return value.map((one) => withNames(one, names));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, inner]) => [
      name,
      name === "$ref" && typeof inner === "string"
        ? `#/components/schemas/${names.get(inner.replace("#/$defs/", ""))}`
        : withNames(inner, names),
    ]),
  );
}
