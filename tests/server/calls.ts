/** Requests to a server of a test, short enough that a test reads as what it says. */
import type { RunningServer } from "../../server/start.ts";

// biome-ignore lint/suspicious/noExplicitAny: what a test expects of an answer is what it checks
type Answer = any;

export interface Calls {
  call(path: string, init?: RequestInit): Promise<Response>;
  json(path: string, init?: RequestInit): Promise<Answer>;
  post(path: string, body: unknown): Promise<Answer>;
  /** A new corpus's id. */
  corpus(name: string): Promise<string>;
  /** Sends files to a corpus and gives the job. */
  fill(corpus: string, files: Files, fields?: Readonly<Record<string, string>>): Promise<Answer>;
  /** The job when it is over. */
  ended(job: string): Promise<Answer>;
}

export type Files = Readonly<Record<string, Uint8Array | string>>;

/** @param server the server, once it runs */
export function callsTo(server: () => RunningServer): Calls {
  const call = (path: string, init?: RequestInit) => fetch(`${server().url}/api${path}`, init);
  const json = async (path: string, init?: RequestInit) => (await call(path, init)).json();
  const post = (path: string, body: unknown) => json(path, sent("POST", body));
  return {
    call,
    json,
    post,
    corpus: async (name) => (await post("/corpora", { name })).id,
    fill: (corpus, files, fields = {}) =>
      json(`/corpora/${corpus}/takes`, { method: "POST", body: formOf(files, fields) }),
    ended: async (job) => {
      for (;;) {
        const state = await json(`/jobs/${job}`);
        if (state.state === "done" || state.state === "cancelled") return state;
        await new Promise((done) => setTimeout(done, 50));
      }
    },
  };
}

export function sent(method: string, body: unknown): RequestInit {
  return { method, headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
}

export function formOf(files: Files, fields: Readonly<Record<string, string>> = {}): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  for (const [name, bytes] of Object.entries(files)) form.append("file", new Blob([bytes as BlobPart]), name);
  return form;
}
