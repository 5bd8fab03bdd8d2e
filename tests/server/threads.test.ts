/** A thread that ends by a fault takes its own task with it and nothing else; limits count work, not waiting. */
import { describe, expect, it } from "vitest";
import { createAnalyst } from "../../server/analysis/analyst.ts";
import { openPlainThread, openThreads } from "../../server/analysis/threads.ts";
import { ARPEGGIOS, FOUR_BARS, smallMidi } from "./harness.ts";

const SMALL = { bytes: smallMidi(ARPEGGIOS), chart: FOUR_BARS, options: {} };

describe("memory", () => {
  it("a thread out of memory fails its task, and the next one gets a new thread", {
    timeout: 120_000,
  }, async () => {
    const faults: unknown[] = [];
    const note = (error: unknown) => faults.push(error);
    process.on("uncaughtException", note);
    const analyst = createAnalyst(1, 60_000, 40);
    const notes = Array.from({ length: 20_000 }, (_, i) => 48 + ((i * 7) % 36));
    const large = { bytes: smallMidi(notes), chart: FOUR_BARS, options: {} };
    const [first, second] = await Promise.allSettled([analyst.analyse(large), analyst.analyse(SMALL)]);
    expect(first).toMatchObject({ status: "rejected", reason: { code: "analysis-too-large" } });
    expect(second).toMatchObject({ status: "fulfilled", value: { ok: true } });
    await analyst.close();
    process.off("uncaughtException", note);
    expect(faults).toEqual([]);
  });

  it("every pool hears of faults that nobody waits for", async () => {
    for (const pool of [
      openThreads({ least: 0, most: 1, idleMs: 1000 }),
      openPlainThread(new URL("../../server/analysis/worker.ts", import.meta.url)),
    ]) {
      // Node.js, "Error events": without a listener, emitting one throws and ends the process.
      expect(() => pool.emit("error", new Error("a thread ended"))).not.toThrow();
      await pool.destroy();
    }
  });
});

describe("time", () => {
  it("waiting for a thread is not counted", { timeout: 120_000 }, async () => {
    const limit = 1500;
    const analyst = createAnalyst(1, limit);
    await analyst.analyse(SMALL);
    const begun = Date.now();
    const ended: PromiseSettledResult<unknown>[] = [];
    // A queue that takes longer than the limit, however fast the machine is.
    for (let many = 100; Date.now() - begun < 2 * limit; many *= 2) {
      ended.push(...(await Promise.allSettled(Array.from({ length: many }, () => analyst.analyse(SMALL)))));
    }
    expect(ended.filter(({ status }) => status === "rejected")).toEqual([]);
    await analyst.close();
  });
});
