/** The server's resources, as far as the pages need them. Errors come as `ApiError`, with words and a way on. */
import type { ChartAsRead, ChartProposal, FormRow } from "../../server/contract/charts.ts";
import type { PlayerRow, ShapeRow } from "../../server/contract/library.ts";
import type { TakeChange, TakeRow, TakeWithAccount } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import type { HandShape } from "../../src/hands/shape.ts";

/** What the server refused, in its words (RFC 9457). */
export class ApiError extends Error {
  readonly code: string;
  readonly title: string;
  readonly where: string | null;
  readonly todo: string;
  readonly status: number;
  /** What the server has instead, where something was sent that is older. */
  readonly stands: unknown;

  constructor(body: Record<string, unknown>, status: number) {
    const text = (name: string) => (typeof body[name] === "string" ? (body[name] as string) : "");
    super(text("detail") || text("title") || `The server answered ${status}.`);
    this.name = "ApiError";
    this.code = text("code") || "unknown";
    this.title = text("title");
    this.where = text("where") || null;
    this.todo = text("todo");
    this.status = status;
    this.stands = body.stands;
  }
}

/** Reads JSON from the server; throws `ApiError` when it says no or cannot be reached. */
export async function fetchJson<T>(path: string, init?: RequestInit): Promise<T> {
  const asked = init === undefined ? ahead.get(path) : undefined;
  if (asked !== undefined) {
    ahead.delete(path);
    return asked as Promise<T>;
  }
  const answer = await request(path, init);
  return (answer.status === 204 ? null : await answer.json()) as T;
}

/** Answers that were asked for before the code that reads them was here, by path; each is read once. */
const ahead = new Map<string, Promise<unknown>>();

/**
 * Asks for what a page will read, while its code is on the way.
 *
 * @returns lets go of what was not read, since it would be old when somebody reads it later; what another page has
 *   asked for by now stays
 */
export function askAhead(paths: readonly string[]): () => void {
  const own = paths.map((path) => {
    const answer = fetchJson(path);
    // Whoever reads it is told.
    answer.catch(() => {});
    ahead.set(path, answer);
    return [path, answer] as const;
  });
  return () => {
    for (const [path, answer] of own) if (ahead.get(path) === answer) ahead.delete(path);
  };
}

/** The same for text (an annotated score). */
export async function fetchText(path: string): Promise<string> {
  return (await request(path)).text();
}

async function request(path: string, init?: RequestInit): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(`/api${path}`, init);
  } catch {
    throw new ApiError(
      {
        code: "unreachable",
        title: "The server does not answer",
        detail: "The server does not answer, so this could not be read.",
        todo: "Check that Ledgerline is still running, then try again.",
      },
      0,
    );
  }
  if (answer.ok) return answer;
  let body: Record<string, unknown> = {};
  try {
    body = (await answer.json()) as Record<string, unknown>;
  } catch {
    // An answer without a body still has its status.
  }
  throw new ApiError(body, answer.status);
}

const json = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

export const takes = {
  list: () => fetchJson<{ takes: TakeRow[] }>("/takes").then((body) => body.takes),
  get: (id: string) => fetchJson<TakeRow>(`/takes/${id}`),
  analysis: (id: string) => fetchJson<Analysis>(`/takes/${id}/analysis`),
  change: (id: string, change: TakeChange) =>
    fetchJson<TakeWithAccount>(`/takes/${id}`, json("PATCH", change)),
  remove: (id: string) => fetchJson<unknown>(`/takes/${id}`, { method: "DELETE" }),
  restore: (id: string) => fetchJson<unknown>(`/takes/${id}/restore`, { method: "POST" }),
};

/** What is heard of the chart of a file; the file is not kept. */
export const proposals = (file: File) => {
  const body = new FormData();
  body.append("file", file, file.name);
  return fetchJson<ChartProposal>("/chart/proposal", { method: "POST", body });
};

/** Reads chart text without keeping it. */
export const chartAsRead = (chart: string) => fetchJson<ChartAsRead>("/chart", json("POST", { chart }));

export const forms = () => fetchJson<{ forms: FormRow[] }>("/forms").then((body) => body.forms);
export const players = () => fetchJson<{ players: PlayerRow[] }>("/players").then((body) => body.players);

export const shapes = {
  list: () => fetchJson<{ shapes: ShapeRow[] }>("/shapes").then((body) => body.shapes),
  create: (shape: HandShape) => fetchJson<ShapeRow>("/shapes", json("POST", { name: shape.name, shape })),
  remove: (id: string) => fetchJson<unknown>(`/shapes/${id}`, { method: "DELETE" }),
  restore: (id: string) => fetchJson<unknown>(`/shapes/${id}/restore`, { method: "POST" }),
};

/**
 * Sends a take with its fields; `progress` is told the share that has gone (0 to 1), 1 when the server is at work.
 * Sent again under the same `key`, what the server has already is not kept twice. XMLHttpRequest, since fetch tells nothing of an upload on its way.
 */
export function sendTake(
  fields: Readonly<Record<string, string>>,
  file: File,
  progress: (share: number) => void,
  key: string | null = null,
): Promise<TakeWithAccount> {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) if (value !== "") form.append(name, value);
  form.append("file", file, file.name);
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open("POST", "/api/takes");
    if (key !== null) request.setRequestHeader("Idempotency-Key", `"${key}"`);
    request.responseType = "json";
    request.upload.addEventListener("progress", (event) => {
      if (event.lengthComputable) progress(event.loaded / event.total);
    });
    request.upload.addEventListener("load", () => progress(1));
    request.addEventListener("error", () =>
      reject(
        new ApiError(
          {
            code: "unreachable",
            detail: "No answer came from the server.",
            todo: "Check that Ledgerline is still running, then try again.",
          },
          0,
        ),
      ),
    );
    request.addEventListener("load", () => {
      if (request.status >= 200 && request.status < 300) resolve(request.response);
      else reject(new ApiError(request.response ?? {}, request.status));
    });
    request.send(form);
  });
}
