/** Sends requests of a seed to a server, and tells what it answered. */
import { Agent, request } from "node:http";
import { chanceFrom } from "../../../src/statistics/chance.ts";
import { type Described, type FuzzRequest, type KnownIds, requestOf } from "./requests.ts";

export interface FuzzOutcome {
  /** Number of answers by status; 0 for a connection that the server ended without an answer. */
  readonly statuses: Readonly<Record<number, number>>;
  /** Requests that ended with 500 or more, and with which answer. */
  readonly faults: readonly { readonly turn: number; readonly request: string; readonly answer: string }[];
  /** Operations of the document that were asked. */
  readonly operations: number;
  /** The longest wait for an answer, in seconds. */
  readonly slowest: { readonly seconds: number; readonly request: string };
}

export interface FuzzPlan {
  /** Address of the server: `http://127.0.0.1:4000`. */
  readonly url: string;
  readonly seed: number;
  readonly requests: number;
  readonly atOnce: number;
  readonly log?: (line: string) => void;
}

/** How often a value is not what is asked for, 0 to 1. */
const ODD = 0.12;
/** What there is changes while it is fuzzed, so the ids are read anew after this many requests. */
const LOOK_AGAIN = 200;

export async function fuzz({ url, seed, requests, atOnce, log }: FuzzPlan): Promise<FuzzOutcome> {
  const agent = new Agent({ keepAlive: true, maxSockets: atOnce });
  const described = (await (await fetch(`${url}/api/openapi.json`)).json()) as Described;
  const operations = Object.values(described.paths).flatMap((methods) => Object.keys(methods)).length;
  const statuses: Record<number, number> = {};
  const faults: FuzzOutcome["faults"][number][] = [];
  let slowest = { seconds: 0, request: "" };
  let known = await knownIds(url);
  let next = 0;
  const work = async () => {
    for (let turn = next++; turn < requests; turn = next++) {
      if (turn % LOOK_AGAIN === LOOK_AGAIN - 1) known = await knownIds(url);
      // A row of its own for each turn, so that one can be sent again alone.
      const draw = {
        chance: chanceFrom(seed * 1_000_003 + turn),
        parts: described.components.schemas,
        odd: ODD,
      };
      const sent = requestOf(described, known, turn, draw);
      const began = performance.now();
      const { status, text } = await send(url, sent, agent);
      const seconds = (performance.now() - began) / 1000;
      if (seconds > slowest.seconds) slowest = { seconds, request: told(sent) };
      statuses[status] = (statuses[status] ?? 0) + 1;
      if (status >= 500) faults.push({ turn, request: told(sent), answer: text.slice(0, 400) });
      if (log !== undefined && turn % 1000 === 999) log(`${turn + 1} requests: ${JSON.stringify(statuses)}`);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, work));
  agent.destroy();
  return { statuses, faults, operations: Math.min(operations, requests), slowest };
}

function told({ method, path, headers, body }: FuzzRequest): string {
  const content = body === null ? "" : Buffer.from(body.subarray(0, 3000)).toString("latin1");
  return `${method} ${path} ${JSON.stringify(headers)} ${JSON.stringify(content)}`;
}

/** Streams of events never end by themselves; what has come by then is enough. */
const PATIENCE_MS = 120_000;

function send(url: string, { method, path, headers, body }: FuzzRequest, agent: Agent) {
  return new Promise<{ status: number; text: string }>((done) => {
    let status = 0;
    let text = "";
    const end = () => done({ status, text });
    try {
      const asked = request(`${url}${path}`, { method, headers, agent, timeout: PATIENCE_MS }, (response) => {
        status = response.statusCode ?? 0;
        response.setEncoding("utf8");
        response.on("data", (part: string) => {
          if (text.length < 4000) text += part;
        });
        response.on("end", end).on("error", end).on("aborted", end);
        if (/event-stream/.test(response.headers["content-type"] ?? "")) {
          asked.destroy();
          end();
        }
      });
      asked.on("error", end).on("timeout", () => asked.destroy());
      asked.end(body ?? undefined);
    } catch {
      // What Node's own client refuses to send.
      status = 400;
      end();
    }
  });
}

const LISTS = {
  takes: ["/takes?limit=5", "takes"],
  players: ["/class", "players"],
  corpora: ["/corpora", "corpora"],
  charts: ["/charts", "charts"],
  shapes: ["/shapes", "shapes"],
  ideas: ["/ideas", "ideas"],
  lenses: ["/lenses", "lenses"],
  tokens: ["/tokens", "tokens"],
  forms: ["/forms", "forms"],
} as const;

async function knownIds(url: string): Promise<KnownIds> {
  const ids: Record<string, string[]> = {};
  for (const [word, [path, field]] of Object.entries(LISTS)) {
    const list = (await (await fetch(`${url}/api${path}`)).json())[field] as { id: string }[] | undefined;
    ids[word] = (list ?? []).slice(0, 5).map(({ id }) => id);
  }
  const failures = await Promise.all(
    (ids.corpora ?? []).map(async (id) => (await fetch(`${url}/api/corpora/${id}/failures`)).json()),
  );
  const items = failures.flatMap(({ failures: list }) => (list ?? []) as { item: string; job: string }[]);
  return {
    ...ids,
    failures: items.slice(0, 5).map(({ item }) => item),
    jobs: items.slice(0, 5).map(({ job }) => job),
  };
}
