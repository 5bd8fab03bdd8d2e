/**
 * A small typed client of the API, for programs in Node or a browser.
 *
 * @example
 * const ledgerline = createClient("http://127.0.0.1:4000");
 * const { id } = await ledgerline.createCorpus("Evening class");
 * const job = await ledgerline.sendTakes(id, files, { manifest });
 * await ledgerline.jobEnded(job.id);
 * for await (const note of ledgerline.rows(id, "notes")) console.log(note.degree);
 */
import type { z } from "zod";
import type { AnalyseOptionsInput, Analysis } from "../src/account.ts";
import type { TableName } from "../src/export/index.ts";
import type { CorpusRow, CorpusSearch, failuresSchema, JobRow } from "./contract/corpora.ts";
import type { Citation, CorpusSummary, Grouping } from "./contract/corpus-results.ts";
import type { Filter } from "./contract/filter.ts";
import type { Found } from "./contract/pattern.ts";
import type { ProblemBody } from "./contract/problem.ts";
import type { TakePage, TakeWithAccount } from "./contract/takes.ts";

/** What the service refused: what, where, and what to do (RFC 9457). */
export class ApiError extends Error {
  readonly status: number;
  readonly code: string;
  readonly where: string | null;
  readonly todo: string;

  constructor(status: number, problem: Partial<ProblemBody>) {
    super(problem.detail ?? `The service answered ${status}`);
    this.name = "ApiError";
    this.status = status;
    this.code = problem.code ?? "unknown";
    this.where = problem.where ?? null;
    this.todo = problem.todo ?? "";
  }
}

export interface NamedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A chart as text, or a built-in form in a key. */
export type ChartChoice =
  | { readonly chart: string }
  | { readonly form: string; readonly key: string }
  | Record<string, never>;

type TableRow = Record<string, string | number | boolean | null | readonly string[]>;

const POLL_MS = 300;

export function createClient(url: string, options: { readonly token?: string } = {}) {
  const headers: Record<string, string> = options.token ? { authorization: `Bearer ${options.token}` } : {};

  const call = async (path: string, init: RequestInit = {}): Promise<Response> => {
    const response = await fetch(`${url}/api${path}`, { ...init, headers: { ...headers, ...init.headers } });
    if (response.ok) return response;
    throw new ApiError(response.status, (await response.json().catch(() => ({}))) as Partial<ProblemBody>);
  };
  const get = async <T>(path: string): Promise<T> => (await call(path)).json() as Promise<T>;
  const send = async <T>(method: string, path: string, body: unknown): Promise<T> =>
    (
      await call(path, {
        method,
        body: JSON.stringify(body),
        headers: { "content-type": "application/json" },
      })
    ).json() as Promise<T>;
  const upload = async <T>(path: string, data: FormData): Promise<T> =>
    (await call(path, { method: "POST", body: data })).json() as Promise<T>;

  return {
    /** The account of a file that is not kept. */
    analyse: (file: NamedFile, chart: ChartChoice, given: AnalyseOptionsInput = {}) =>
      upload<Analysis>("/analyse", form([file], { ...chart, options: JSON.stringify(given) })),

    takes: async () => (await get<TakePage>("/takes")).takes,
    analysis: (take: string) => get<Analysis>(`/takes/${encodeURIComponent(take)}/analysis`),
    keepTake: (
      file: NamedFile,
      chart: ChartChoice,
      facts: { readonly player?: string; readonly title?: string; readonly date?: string } = {},
    ) => upload<TakeWithAccount>("/takes", form([file], { ...chart, ...facts })),

    createCorpus: (name: string, note = "") => send<CorpusRow>("POST", "/corpora", { name, note }),
    sendTakes: (
      corpus: string,
      files: readonly NamedFile[],
      fields: ChartChoice & { readonly manifest?: string; readonly player?: string; readonly tags?: string },
    ) => upload<JobRow>(`/corpora/${corpus}/takes`, form(files, fields)),
    job: (id: string) => get<JobRow>(`/jobs/${id}`),
    cancel: (id: string) => send<JobRow>("DELETE", `/jobs/${id}`, {}),
    /** Waits until a job is done or cancelled. */
    jobEnded: async (id: string): Promise<JobRow> => {
      for (;;) {
        const job = await get<JobRow>(`/jobs/${id}`);
        if (job.state === "done" || job.state === "cancelled") return job;
        await new Promise((done) => setTimeout(done, POLL_MS));
      }
    },
    failures: async (corpus: string) =>
      (await get<z.output<typeof failuresSchema>>(`/corpora/${corpus}/failures`)).failures,
    summary: (corpus: string, by?: Grouping, filter: Partial<Filter> = {}) =>
      get<CorpusSummary>(`/corpora/${corpus}/summary${query({ ...filter, by })}`),
    search: (corpus: string, pattern: CorpusSearch) =>
      send<Found>("POST", `/corpora/${corpus}/search`, pattern),
    citation: (corpus: string, filter: Partial<Filter> = {}) =>
      get<Citation>(`/corpora/${corpus}/citation${query(filter)}`),

    /** The rows of a table, one by one as they arrive. */
    rows: async function* (
      corpus: string,
      table: TableName,
      filter: Partial<Filter> = {},
    ): AsyncGenerator<TableRow> {
      yield* ndjsonRows(await call(`/corpora/${corpus}/${table}${query({ ...filter, format: "ndjson" })}`));
    },
  };
}

/** The rows of a table as they arrive, one a line. */
async function* ndjsonRows(response: Response): AsyncGenerator<TableRow> {
  let rest = "";
  const decoder = new TextDecoder();
  for await (const part of response.body as unknown as AsyncIterable<Uint8Array>) {
    const lines = (rest + decoder.decode(part, { stream: true })).split("\n");
    rest = lines.pop()!;
    for (const line of lines) yield JSON.parse(line);
  }
  if (rest !== "") yield JSON.parse(rest);
}

function form(files: readonly NamedFile[], fields: Readonly<Record<string, string | undefined>>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries(fields)) if (value !== undefined) data.append(name, value);
  for (const { name, bytes } of files)
    data.append("file", new Blob([bytes as Uint8Array<ArrayBuffer>]), name);
  return data;
}

function query(fields: Readonly<Record<string, unknown>>): string {
  const given = Object.entries(fields).filter(([, value]) => value !== undefined);
  const text = new URLSearchParams(
    given.map(([name, value]): [string, string] => [name, String(value)]),
  ).toString();
  return text === "" ? "" : `?${text}`;
}
