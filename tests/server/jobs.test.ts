/** What becomes of an item of a job: done once, failed for good, tried again, stopped. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Analyst } from "../../server/analysis/analyst.ts";
import { QUEUE, type Queue } from "../../server/jobs/queue.ts";
import { startWorker } from "../../server/jobs/work.ts";
import type { RunningServer } from "../../server/start.ts";
import { Problem } from "../../src/take/index.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "./harness.ts";

let server: RunningServer;
const { call, json, corpus, fill, ended } = callsTo(() => server);

beforeAll(async () => {
  server = await serve({ worker: false });
});
afterAll(() => server.close());

/** A worker whose analyses go through `analyse`. */
function worker(analyse: Analyst["analyse"]) {
  const { services } = server;
  return startWorker({ ...services, analyst: { ...services.analyst, analyse } }, services.queue, 1);
}

const midi = (n: number) => smallMidi(ARPEGGIOS.map((pitch) => pitch - 12 + n));
const accounts = async () =>
  (await server.services.database.query<{ n: number }>("select count(*)::int as n from analyses"))[0]!.n;

describe("an item of a job", () => {
  it("is tried again after a fault that may pass, after growing pauses, and done once", async () => {
    let tries = 0;
    const job = await fill(await corpus("Worker dies"), { "a.mid": midi(0) }, { chart: FOUR_BARS });
    const working = worker(async (task) => {
      // What a thread that ran out of memory ends with (Node.js documentation, ERR_WORKER_OUT_OF_MEMORY).
      if (++tries < 3) throw Object.assign(new Error("out"), { code: "ERR_WORKER_OUT_OF_MEMORY" });
      return server.services.analyst.analyse(task);
    });
    expect(await ended(job.id)).toMatchObject({ done: 1, failed: 0 });
    await working.stop();
    expect(tries).toBe(3);
    const [message] = await server.services.database.query(
      `select retry_count as tries, retry_backoff as growing, retry_delay as seconds, state from pgboss.job
       where name = $1 and data->>'item' = (select id from items where job_id = $2)`,
      [QUEUE, job.id],
    );
    expect(message).toEqual({ tries: 2, growing: true, seconds: 1, state: "completed" });
  });

  it("of a bad file fails at once, with its reason, and is not tried again", async () => {
    let tries = 0;
    const id = await corpus("Bad file");
    const job = await fill(id, { "a.mid": midi(1) }, { chart: FOUR_BARS });
    const working = worker(async () => {
      tries++;
      throw new Problem("not-midi", "This is not a MIDI file", "byte 0", "Export it again.");
    });
    expect(await ended(job.id)).toMatchObject({ done: 0, failed: 1 });
    await new Promise((done) => setTimeout(done, 1500));
    await working.stop();
    expect(tries).toBe(1);
    expect((await json(`/corpora/${id}/failures`)).failures[0]).toMatchObject({
      code: "not-midi",
      where: "byte 0",
      todo: "Export it again.",
    });
  });

  it("that failed is tried again by one call, with the others of its corpus that failed", async () => {
    const id = await corpus("Mended");
    const manifest = "file,form,key\na.mid,blues-basic,F\nb.mid,blues-basic,F\nnot-sent.mid,blues-basic,F";
    const job = await fill(id, { "a.mid": midi(21), "b.mid": midi(22) }, { manifest });
    const failing = worker(async () => {
      throw new Problem("analysis-too-long", "It took too long", null, "Send a shorter excerpt.");
    });
    expect(await ended(job.id)).toMatchObject({ done: 0, failed: 3 });
    await failing.stop();
    const retry = () => call(`/corpora/${id}/failures/retry`, { method: "POST" });
    const again = await retry();
    // What was never sent cannot be analysed, however often it is tried.
    expect([again.status, await again.json()]).toEqual([202, { waiting: 2 }]);
    const working = worker((task) => server.services.analyst.analyse(task));
    expect(await ended(job.id)).toMatchObject({ done: 2, failed: 1 });
    await working.stop();
    expect((await json(`/corpora/${id}`)).takes).toBe(2);
    expect(await (await retry()).json()).toEqual({ waiting: 0 });
  });

  it("that takes its worker down each time is given up, so that a job always ends", async () => {
    const id = await corpus("Poison");
    const job = await fill(id, { "a.mid": midi(2) }, { chart: FOUR_BARS });
    await server.services.database.query("update items set attempts = 50 where job_id = $1", [job.id]);
    const working = worker(async () => {
      throw new Error("this must not be asked for again");
    });
    expect(await ended(job.id)).toMatchObject({ failed: 1 });
    await working.stop();
    expect((await json(`/corpora/${id}/failures`)).failures[0].code).toBe("gave-up");
  });

  it("whose analysis breaks off again and again is given up after five faults", async () => {
    const id = await corpus("Faults");
    const job = await fill(id, { "a.mid": midi(2) }, { chart: FOUR_BARS });
    await server.services.database.query("update items set faults = 4 where job_id = $1", [job.id]);
    const working = worker(async () => {
      throw Object.assign(new Error("out"), { code: "ERR_WORKER_OUT_OF_MEMORY" });
    });
    expect(await ended(job.id)).toMatchObject({ failed: 1 });
    await working.stop();
    expect((await json(`/corpora/${id}/failures`)).failures[0].code).toBe("gave-up");
  });

  it("whose message was lost is found and done", async () => {
    const job = await fill(await corpus("Lost message"), { "a.mid": midi(3) }, { chart: FOUR_BARS });
    await server.services.database.query("delete from pgboss.job where name = $1", [QUEUE]);
    const working = worker(server.services.analyst.analyse);
    expect(await ended(job.id)).toMatchObject({ done: 1 });
    await working.stop();
  });

  it("whose message is handed out twice makes one take", async () => {
    const id = await corpus("Twice");
    const job = await fill(id, { "a.mid": midi(4) }, { chart: FOUR_BARS });
    const { database, queue } = server.services;
    const items = await database.query<{ id: string }>("select id from items where job_id = $1", [job.id]);
    await database.transaction((inside) => queue.add(inside, [items[0]!.id, items[0]!.id]));
    const both = [worker(server.services.analyst.analyse), worker(server.services.analyst.analyse)];
    expect(await ended(job.id)).toMatchObject({ total: 1, done: 1 });
    await new Promise((done) => setTimeout(done, 500));
    await Promise.all(both.map((one) => one.stop()));
    expect((await json(`/corpora/${id}`)).takes).toBe(1);
  });

  it("is not begun once its job is cancelled; what is done stays", async () => {
    const id = await corpus("Cancelled");
    const files = Object.fromEntries([5, 6, 7, 8, 9].map((n) => [`${n}.mid`, midi(n)]));
    const job = await fill(id, files, { chart: FOUR_BARS });
    let begun = 0;
    let go = () => {};
    const gate = new Promise<void>((open) => {
      go = open;
    });
    const working = worker(async (task) => {
      if (begun++ >= 1) await gate;
      return server.services.analyst.analyse(task);
    });
    while ((await json(`/jobs/${job.id}`)).done < 1) await new Promise((done) => setTimeout(done, 30));
    const stopped = await json(`/jobs/${job.id}`, { method: "DELETE" });
    expect(stopped).toMatchObject({ state: "cancelled", total: 5 });
    go();
    await working.stop();
    expect((await json(`/corpora/${id}`)).takes).toBe(stopped.done);
    expect(stopped.done + stopped.cancelled).toBe(5);
    // Workers look two items ahead; the others were never begun.
    expect(begun).toBeLessThan(5);
  });
});

describe("a result", () => {
  it("has one key for content, chart, options and version: the same again makes no second account", async () => {
    const working = worker(server.services.analyst.analyse);
    const one = async (bytes: Uint8Array, chart: string, options: string) => {
      const before = await accounts();
      const job = await fill(await corpus("Key"), { "same.mid": bytes }, { chart, options });
      expect(await ended(job.id)).toMatchObject({ done: 1 });
      return (await accounts()) - before;
    };
    expect(await one(midi(10), FOUR_BARS, "{}")).toBe(1);
    expect(await one(midi(10), FOUR_BARS, "{}")).toBe(0);
    expect(await one(midi(11), FOUR_BARS, "{}")).toBe(1);
    expect(await one(midi(10), "key: F\n| F7 | Bb7 | F7 | F7 |", "{}")).toBe(1);
    expect(await one(midi(10), FOUR_BARS, '{"tempo":120}')).toBe(1);
    await working.stop();
  });
});

describe("the progress of a job", () => {
  it("comes as events with rate and time left, and ends with the job", async () => {
    const files = Object.fromEntries(Array.from({ length: 10 }, (_, n) => [`${n}.mid`, midi(n)]));
    const job = await fill(await corpus("Events"), files, { form: "blues-basic", key: "F" });
    const response = await call(`/jobs/${job.id}/events`);
    expect(response.headers.get("content-type")).toContain("text/event-stream");
    const working = worker(server.services.analyst.analyse);
    const text = await response.text();
    await working.stop();
    // The format of an event stream: WHATWG HTML, server-sent events.
    const events = text
      .split("\n\n")
      .filter((event) => event !== "")
      .map((event) => {
        const [name, data] = event.split("\n");
        expect(name).toBe("event: progress");
        return JSON.parse(data!.replace(/^data: /, ""));
      });
    expect(events[0]).toMatchObject({ state: "waiting", done: 0, secondsLeft: null });
    const last = events.at(-1);
    expect(last).toMatchObject({ state: "done", done: 10, secondsLeft: 0 });
    expect(last.takesPerSecond).toBeGreaterThan(0);
    for (const event of events.filter(({ secondsLeft }) => secondsLeft !== null)) {
      expect(event.secondsLeft).toBeCloseTo((event.total - event.done) / event.takesPerSecond, 6);
    }
  });
});

describe("the queue", () => {
  it("that cannot be reached stops no worker: it goes on when the queue is back", async () => {
    const job = await fill(await corpus("Database away"), { "a.mid": midi(12) }, { chart: FOUR_BARS });
    let away = 3;
    const { services } = server;
    const queue: Queue = {
      ...services.queue,
      take: async (most) => {
        if (away-- > 0) throw Object.assign(new Error("gone"), { code: "ECONNREFUSED" });
        return services.queue.take(most);
      },
    };
    const working = startWorker(services, queue, 1);
    expect(await ended(job.id)).toMatchObject({ done: 1 });
    await working.stop();
  });
});
