/** The resources of a corpus, as far as the pages need them. */
import type { MotifViewpoint } from "../../src/account.ts";
import { fetchJson } from "./api.ts";
import type { Found } from "./ideas.ts";

export interface CorpusRow {
  readonly id: string;
  readonly name: string;
  readonly note: string;
  readonly takes: number;
  readonly waiting: number;
  readonly failed: number;
}

export interface JobRow {
  readonly id: string;
  readonly state: "waiting" | "running" | "done" | "cancelled";
  readonly total: number;
  readonly done: number;
  readonly failed: number;
  readonly cancelled: number;
  readonly takesPerSecond?: number;
  readonly secondsLeft?: number | null;
}

export type Spread = {
  readonly q1: number;
  readonly median: number;
  readonly q3: number;
  readonly takes: number;
} | null;

export interface CorpusSummary {
  readonly takes: number;
  readonly players: number;
  readonly notes: number;
  readonly seconds: number;
  readonly roles: Readonly<Record<string, number>>;
  readonly lineRoles: Readonly<Record<string, number>>;
  readonly measures: Readonly<Record<string, Spread>>;
  readonly groups: readonly {
    readonly value: string;
    readonly takes: number;
    readonly notes: number;
    readonly roles: Readonly<Record<string, number>>;
  }[];
}

export interface Idea {
  readonly viewpoint: MotifViewpoint;
  readonly pattern: readonly (number | string)[];
  readonly notes: number;
  readonly takes: number;
  readonly players: number;
  readonly occurrences: number;
}

/** How the takes stand to each other: spreads, and robust scores of each take. */
export interface MeasureSpreads {
  readonly takes: number;
  /** A score beyond this, above or below, stands apart. */
  readonly limit: number;
  readonly apart: number;
  readonly measures: readonly {
    readonly measure: string;
    readonly takes: number;
    readonly median: number | null;
    readonly deviation: number | null;
    readonly bins: readonly { readonly from: number; readonly to: number; readonly takes: number }[];
  }[];
  readonly rows: readonly {
    readonly take: string;
    readonly title: string;
    readonly player: string | null;
    readonly values: Readonly<Record<string, number | null>>;
    readonly scores: Readonly<Record<string, number | null>>;
    readonly furthest: number;
  }[];
}

/** Which takes of a corpus are meant; empty for all. */
export type Part = Readonly<Record<string, string | number>>;

export interface Failure {
  readonly item: string;
  readonly fileName: string;
  readonly message: string;
  readonly where: string | null;
  readonly todo: string;
}

export const GROUPINGS = ["player", "tag", "chord", "tempo", "decade", "key", "chart", "method"] as const;

const json = (body: unknown): RequestInit => ({
  method: "POST",
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

export const corpora = {
  list: () => fetchJson<{ corpora: CorpusRow[] }>("/corpora").then((body) => body.corpora),
  get: (id: string) => fetchJson<CorpusRow>(`/corpora/${id}`),
  create: (name: string) => fetchJson<CorpusRow>("/corpora", json({ name })),
  send: (id: string, form: FormData) =>
    fetchJson<JobRow>(`/corpora/${id}/takes`, { method: "POST", body: form }),
  remove: (id: string) => fetchJson<unknown>(`/corpora/${id}`, { method: "DELETE" }),
  restore: (id: string) => fetchJson<unknown>(`/corpora/${id}/restore`, { method: "POST" }),
  summary: (id: string, by: string | null, part: Part) =>
    fetchJson<CorpusSummary>(`/corpora/${id}/summary?${asked({ ...(by ? { by } : {}), ...part })}`),
  spreads: (id: string, part: Part) => fetchJson<MeasureSpreads>(`/corpora/${id}/standing?${asked(part)}`),
  vocabulary: (id: string, viewpoint: string, part: Part) =>
    fetchJson<{ takes: number; ideas: Idea[] }>(
      `/corpora/${id}/vocabulary?${asked({ limit: 24, ...(viewpoint ? { viewpoint } : {}), ...part })}`,
    ),
  failures: (id: string) =>
    fetchJson<{ failures: Failure[] }>(`/corpora/${id}/failures`).then((body) => body.failures),
  search: (id: string, body: unknown) => fetchJson<Found>(`/corpora/${id}/search`, json(body)),
  cancel: (job: string) => fetchJson<JobRow>(`/jobs/${job}`, { method: "DELETE" }),
};

const asked = (fields: Part): URLSearchParams =>
  new URLSearchParams(Object.entries(fields).map(([name, value]) => [name, String(value)]));

/** The takes of one group of a grouping, as the server filters them; null where a group is not a set of takes. */
export function partOf(by: string, value: string): Part | null {
  if (value === "") return null;
  switch (by) {
    case "player":
    case "tag":
    case "key":
    case "chart":
    case "method":
      return { [by]: value };
    case "tempo": {
      const [slowest, fastest] = value.split("-").map(Number);
      return slowest === undefined || fastest === undefined || Number.isNaN(slowest)
        ? null
        : { slowest, fastest };
    }
    case "decade": {
      const from = Number.parseInt(value, 10);
      return { from: `${from}-01-01`, to: `${from + 9}-12-31` };
    }
    default:
      return null;
  }
}

/** Calls `tell` with each report of a job until it ends; returns the way to stop listening. */
export function followJob(id: string, tell: (job: JobRow) => void): () => void {
  const source = new EventSource(`/api/jobs/${id}/events`);
  source.addEventListener("progress", (event) => {
    const job = JSON.parse((event as MessageEvent<string>).data) as JobRow;
    tell(job);
    if (job.state === "done" || job.state === "cancelled") source.close();
  });
  return () => source.close();
}
