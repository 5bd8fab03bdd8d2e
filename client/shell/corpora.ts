/** The resources of a corpus, as far as the pages need them. */
import type { MotifViewpoint } from "../../src/account.ts";
import { read } from "./api.ts";

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

export interface Hit {
  readonly take: string;
  readonly firstNote: string;
  readonly chorus: number;
  readonly bar: number;
  readonly beat: number | null;
  readonly edits: number;
  readonly pitches: readonly number[];
  readonly before: readonly number[];
  readonly after: readonly number[];
}

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
  list: () => read<{ corpora: CorpusRow[] }>("/corpora").then((body) => body.corpora),
  get: (id: string) => read<CorpusRow>(`/corpora/${id}`),
  create: (name: string) => read<CorpusRow>("/corpora", json({ name })),
  send: (id: string, form: FormData) => read<JobRow>(`/corpora/${id}/takes`, { method: "POST", body: form }),
  summary: (id: string, by: string) => read<CorpusSummary>(`/corpora/${id}/summary?by=${by}`),
  vocabulary: (id: string) => read<{ takes: number; ideas: Idea[] }>(`/corpora/${id}/vocabulary?limit=24`),
  failures: (id: string) =>
    read<{ failures: Failure[] }>(`/corpora/${id}/failures`).then((body) => body.failures),
  search: (id: string, body: unknown) =>
    read<{ found: number; hits: Hit[] }>(`/corpora/${id}/search`, json(body)),
  cancel: (job: string) => read<JobRow>(`/jobs/${job}`, { method: "DELETE" }),
};

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
