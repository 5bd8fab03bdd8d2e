/** The resources of a corpus, as far as the pages need them. */
import type { CorpusRow, Failure, JobProgress, JobRow, RepeatedFile } from "../../server/contract/corpora.ts";
import type {
  CorpusSummary,
  Grouping,
  MeasureSpreads,
  Vocabulary,
} from "../../server/contract/corpus-results.ts";
import type { Found } from "../../server/contract/pattern.ts";
import { fetchJson } from "./api.ts";

/** Which takes of a corpus are meant; empty for all. */
export type Part = Readonly<Record<string, string | number>>;

export const GROUPINGS = [
  "player",
  "tag",
  "chord",
  "tempo",
  "decade",
  "key",
  "chart",
  "method",
] as const satisfies readonly Grouping[];

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
    fetchJson<Vocabulary>(
      `/corpora/${id}/vocabulary?${asked({ limit: 24, ...(viewpoint ? { viewpoint } : {}), ...part })}`,
    ),
  failures: (id: string) =>
    fetchJson<{ failures: Failure[] }>(`/corpora/${id}/failures`).then((body) => body.failures),
  repeated: (id: string) =>
    fetchJson<{ repeated: RepeatedFile[] }>(`/corpora/${id}/repeated`).then((body) => body.repeated),
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
export function followJob(id: string, tell: (job: JobProgress) => void): () => void {
  const source = new EventSource(`/api/jobs/${id}/events`);
  source.addEventListener("progress", (event) => {
    const job = JSON.parse((event as MessageEvent<string>).data) as JobProgress;
    tell(job);
    if (job.state === "done" || job.state === "cancelled") source.close();
  });
  return () => source.close();
}
