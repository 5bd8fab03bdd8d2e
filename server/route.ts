/**
 * What a route is: one definition feeds Express, the checks of what comes in and the OpenAPI document.
 */
import type { Request, Response } from "express";
import { z } from "zod";
import type { Access, Actor } from "./access.ts";
import type { Services } from "./services.ts";

export interface UploadedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What a route's handler may answer. */
export type Answer =
  | { readonly status: number; readonly json: unknown; readonly location?: string }
  | { readonly status: 204 }
  | {
      readonly status: number;
      readonly type: string;
      readonly fileName: string | null;
      readonly body: Uint8Array | string;
    }
  /** The handler writes the response itself: streams and server-sent events. */
  | { readonly stream: (request: Request, response: Response) => Promise<void> };

export interface Context<Params, Query, Body> {
  readonly params: Params;
  readonly query: Query;
  readonly body: Body;
  readonly files: readonly UploadedFile[];
  readonly services: Services;
  readonly actor: Actor;
}

export interface Route<
  Params extends z.ZodType = z.ZodType,
  Query extends z.ZodType = z.ZodType,
  Body extends z.ZodType = z.ZodType,
> {
  readonly method: "get" | "post" | "patch" | "put" | "delete";
  /** Below `/api`, with `:name` for parameters. */
  readonly path: string;
  readonly access: Access;
  readonly summary: string;
  readonly params: Params;
  readonly query: Query;
  readonly body: Body;
  /**
   * "json" bodies are checked as they are; "form" is multipart with one file in `file`, "forms" with any number;
   * "none" has no body.
   */
  readonly accepts: "json" | "form" | "forms" | "none";
  readonly answers: Readonly<
    Record<number, { readonly description: string; readonly schema?: z.ZodType; readonly type?: string }>
  >;
  /** A request that works on the demo corpus, for the document and for the test that sends every one of them. */
  readonly example?: {
    readonly params?: Record<string, string>;
    readonly query?: Record<string, string>;
    readonly body?: unknown;
  };
  readonly handle: (context: Context<z.infer<Params>, z.infer<Query>, z.infer<Body>>) => Promise<Answer>;
}

const nothing = z.object({});

type RouteInput<P extends z.ZodType, Q extends z.ZodType, B extends z.ZodType> = Omit<
  Route<P, Q, B>,
  "params" | "query" | "body" | "accepts"
> & { readonly params?: P; readonly query?: Q; readonly body?: B; readonly accepts?: Route["accepts"] };

/** Fills in what a route leaves out, and keeps the types of what it states. */
export function route<
  P extends z.ZodType = typeof nothing,
  Q extends z.ZodType = typeof nothing,
  B extends z.ZodType = typeof nothing,
>(input: RouteInput<P, Q, B>): Route {
  return {
    params: nothing,
    query: nothing,
    body: nothing,
    accepts: input.body === undefined ? "none" : "json",
    ...input,
  } as unknown as Route;
}
