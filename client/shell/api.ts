/** The server's resources, as far as the pages need them. Errors come as `ApiError`, with words and a way on. */
import type { AnalyseOptionsInput, Analysis, Correction } from "../../src/account.ts";
import type { HandShape } from "../../src/hands/shape.ts";

export interface TakeRow {
  readonly id: string;
  readonly title: string | null;
  readonly player: string | null;
  readonly playerId: string | null;
  readonly date: string | null;
  readonly chartName: string | null;
  readonly key: string;
  readonly choruses: number;
  readonly notes: number;
  readonly method: string;
  readonly demo: boolean;
  readonly tags: readonly string[];
  /** Whether the recording that its notes were heard in was kept. */
  readonly sound: boolean;
}

export interface FormRow {
  readonly id: string;
  readonly name: string;
  readonly bars: number;
  readonly mode: "major" | "minor";
}

export interface TakeChange {
  readonly chart?: string;
  readonly form?: string;
  readonly key?: string;
  readonly anchors?: Analysis["alignment"]["anchors"];
  readonly options?: AnalyseOptionsInput;
  /** Of single notes: each in place of what was said of its note before; one that names a note alone undoes. */
  readonly correct?: readonly Correction[];
  readonly title?: string;
  readonly player?: string;
  readonly date?: string;
}

/** What the server refused, in its words (RFC 9457). */
export class ApiError extends Error {
  readonly code: string;
  readonly title: string;
  readonly where: string | null;
  readonly todo: string;
  readonly status: number;

  constructor(body: Record<string, unknown>, status: number) {
    const text = (name: string) => (typeof body[name] === "string" ? (body[name] as string) : "");
    super(text("detail") || text("title") || `The server answered ${status}.`);
    this.name = "ApiError";
    this.code = text("code") || "unknown";
    this.title = text("title");
    this.where = text("where") || null;
    this.todo = text("todo");
    this.status = status;
  }
}

/** Reads JSON from the server; throws `ApiError` when it says no or cannot be reached. */
export async function fetchJson<T>(path: string, init?: RequestInit): Promise<T> {
  const answer = await request(path, init);
  return (answer.status === 204 ? null : await answer.json()) as T;
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
  get: (id: string) =>
    fetchJson<{ take: TakeRow } | TakeRow>(`/takes/${id}`).then((b) => ("take" in b ? b.take : b)),
  analysis: (id: string) => fetchJson<Analysis>(`/takes/${id}/analysis`),
  change: (id: string, change: TakeChange) =>
    fetchJson<{ take: TakeRow; analysis: Analysis }>(`/takes/${id}`, json("PATCH", change)),
  remove: (id: string) => fetchJson<unknown>(`/takes/${id}`, { method: "DELETE" }),
  restore: (id: string) => fetchJson<unknown>(`/takes/${id}/restore`, { method: "POST" }),
};

/** A chart that a take may be played on, with how sure each bar is (0 to 1). */
export interface ProposedChart {
  readonly description: string;
  readonly key: string;
  readonly meter: { readonly beats: number; readonly unit: number };
  readonly idiom: "blues" | "standard";
  readonly confidence: number;
  readonly bars: readonly { readonly bar: number; readonly chords: string; readonly confidence: number }[];
}

export interface ChartProposal {
  readonly source: "source harmony" | "source text" | "comping";
  readonly charts: readonly ProposedChart[];
}

/** What is heard of the chart of a file; the file is not kept. */
export const proposals = (file: File) => {
  const body = new FormData();
  body.append("file", file, file.name);
  return fetchJson<ChartProposal>("/chart/proposal", { method: "POST", body });
};

/** A chart as it is read: its bars in the order of playing, and what was understood rather than read. */
export interface ChartAsRead {
  readonly key: string;
  readonly meter: { readonly beats: number; readonly unit: number };
  readonly played: readonly { readonly bar: number; readonly chords: string }[];
  readonly warnings: readonly {
    readonly code: string;
    readonly message: string;
    readonly where: string | null;
  }[];
}

/** Reads chart text without keeping it. */
export const chartAsRead = (chart: string) => fetchJson<ChartAsRead>("/chart", json("POST", { chart }));

export const forms = () => fetchJson<{ forms: FormRow[] }>("/forms").then((body) => body.forms);
export const players = () =>
  fetchJson<{ players: { id: string; name: string }[] }>("/players").then((body) => body.players);

/** A shape of the teacher's own, as it is stored. */
export interface ShapeRow {
  readonly id: string;
  readonly name: string;
  readonly shape: HandShape;
}

export const shapes = {
  list: () => fetchJson<{ shapes: ShapeRow[] }>("/shapes").then((body) => body.shapes),
  create: (shape: HandShape) => fetchJson<ShapeRow>("/shapes", json("POST", { name: shape.name, shape })),
  remove: (id: string) => fetchJson<unknown>(`/shapes/${id}`, { method: "DELETE" }),
  restore: (id: string) => fetchJson<unknown>(`/shapes/${id}/restore`, { method: "POST" }),
};

/**
 * Sends a take with its fields; `progress` is told the share that has gone (0 to 1), 1 when the server is at work.
 * XMLHttpRequest, since fetch tells nothing of an upload on its way.
 */
export function sendTake(
  fields: Readonly<Record<string, string>>,
  file: File,
  progress: (share: number) => void,
): Promise<{ take: TakeRow; analysis: Analysis }> {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) if (value !== "") form.append(name, value);
  form.append("file", file, file.name);
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open("POST", "/api/takes");
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
            detail: "The file did not reach the server.",
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
