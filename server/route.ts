/**
 * What a route is: one definition feeds Express, the checks of what comes in and the OpenAPI document.
 */
import type { Request, Response } from "express";
import { z } from "zod";
import type { Frozen } from "../src/account.ts";
import type { Access, Actor } from "./access.ts";
import type { JsonText } from "./contract/json-text.ts";
import type { SentFile } from "./corpus/bundle.ts";
import type { Services } from "./services.ts";
import type { KeptAccount } from "./store/accounts.ts";

export interface UploadedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What a route says of one of its answers. */
export interface AnswerKind {
  readonly description: string;
  /** Shape of an answer in JSON. */
  readonly schema?: z.ZodType;
  /** Media type, or types, of an answer that is a file or a stream. */
  readonly type?: string | readonly string[];
  /** Shape of one line of NDJSON, or of the data of one event of a stream. */
  readonly line?: z.ZodType;
}

/** What a route may answer with; refusals are thrown. */
type Status = 200 | 201 | 202 | 204 | 404;

export type AnswerKinds = { readonly [S in Status]?: AnswerKind };

/** A value that the schema describes, as it is or read-only. */
type Shaped<Schema extends z.ZodType> = z.output<Schema> | Frozen<z.output<Schema>>;

interface JsonAnswer<Status, Value> {
  readonly status: Status;
  readonly json: Value;
  readonly location?: string;
}

interface WrittenAnswer<Status, Value> {
  readonly status: Status;
  readonly written: JsonText<Value>;
  readonly location?: string;
}

/** An account as it is kept. */
interface KeptAnswer<Status, Value> {
  readonly status: Status;
  readonly kept: KeptAccount & { readonly keptFrom?: Value };
}

interface FileAnswer<Status> {
  readonly status: Status;
  readonly type: string;
  readonly fileName: string | null;
  readonly body: Uint8Array | string;
}

/** The handler writes the response itself: streams and server-sent events. */
interface StreamAnswer {
  readonly stream: (request: Request, response: Response) => Promise<void>;
}

type OneAnswer<Status, Kind> =
  | (Kind extends { readonly schema: infer Schema extends z.ZodType }
      ?
          | JsonAnswer<Status, Shaped<Schema>>
          | WrittenAnswer<Status, Shaped<Schema>>
          | KeptAnswer<Status, Shaped<Schema>>
      : never)
  | (Kind extends { readonly type: string | readonly string[] } ? FileAnswer<Status> | StreamAnswer : never)
  | (Kind extends { readonly schema: z.ZodType } | { readonly type: string | readonly string[] }
      ? never
      : { readonly status: Status } | StreamAnswer);

/** What a handler may answer: a value of the schema that stands at its status, and nothing else. */
export type AnswerTo<Kinds extends AnswerKinds> = {
  [S in keyof Kinds & Status]: OneAnswer<S, Kinds[S]>;
}[keyof Kinds & Status];

/** An answer on its way to be sent. */
export type Answer =
  | JsonAnswer<number, unknown>
  | WrittenAnswer<number, unknown>
  | KeptAnswer<number, unknown>
  | FileAnswer<number>
  | StreamAnswer
  | { readonly status: number };

export interface Context<Params, Query, Body> {
  readonly params: Params;
  readonly query: Query;
  readonly body: Body;
  /** The key that the request was sent under, where the route is `repeatable` and the caller gave one. */
  readonly key: string | null;
  readonly files: readonly UploadedFile[];
  /** What came to a route that accepts "forms", and the folder in which it lies; removed when it is answered. */
  readonly sent: { readonly files: readonly SentFile[]; readonly folder: string };
  readonly services: Services;
  readonly actor: Actor;
}

export interface Route<
  Params extends z.ZodType = z.ZodType,
  Query extends z.ZodType = z.ZodType,
  Body extends z.ZodType = z.ZodType,
  Kinds extends AnswerKinds = AnswerKinds,
> {
  readonly method: "get" | "post" | "patch" | "put" | "delete";
  /** Below `/api`, with `:name` for parameters. */
  readonly path: string;
  readonly access: Access;
  readonly summary: string;
  readonly params: Params;
  readonly query: Query;
  readonly body: Body;
  /** The body as it is published, where `body` leaves checks to the handler, which tells mistakes in more words. */
  readonly published?: z.ZodType;
  /**
   * "json" bodies are checked as they are; "form" is multipart with one file in `file`, "forms" with any number;
   * "none" has no body.
   */
  readonly accepts: "json" | "form" | "forms" | "none";
  readonly answers: Kinds;
  /** Takes an Idempotency-Key: sent again under the same key, a request is answered like the first time. */
  readonly repeatable?: boolean;
  /** False for a request that is no GET and keeps nothing: it is answered on a full disk too. */
  readonly keeps?: false;
  /** A request that works on the demo corpus, for the document and for the test that sends every one of them. */
  readonly example?: {
    readonly params?: Record<string, string>;
    readonly query?: Record<string, string>;
    readonly body?: unknown;
  };
  /** A method, so that a list may hold routes of any shape: what each gets was checked by its own schemas. */
  handle(context: Context<z.output<Params>, z.output<Query>, z.output<Body>>): Promise<Answer>;
}

const nothing = z.object({});

type RouteInput<P extends z.ZodType, Q extends z.ZodType, B extends z.ZodType, K extends AnswerKinds> = Omit<
  Route<P, Q, B, K>,
  "params" | "query" | "body" | "accepts" | "handle"
> & {
  readonly params?: P;
  readonly query?: Q;
  readonly body?: B;
  readonly accepts?: Route["accepts"];
  readonly handle: (context: Context<z.output<P>, z.output<Q>, z.output<B>>) => Promise<AnswerTo<K>>;
};

/** Fills in what a route leaves out, and holds its handler to the shapes that it states. */
export function route<
  const K extends AnswerKinds,
  P extends z.ZodType = typeof nothing,
  Q extends z.ZodType = typeof nothing,
  B extends z.ZodType = typeof nothing,
>(input: RouteInput<P, Q, B, K>): Route {
  return {
    params: nothing,
    query: nothing,
    body: nothing,
    accepts: input.body === undefined ? "none" : "json",
    ...input,
  };
}
