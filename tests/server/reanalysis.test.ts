/** A new version of the analysis: made again in the background, the old account readable until the new one stands. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { changeTake } from "../../server/store/change-take.ts";
import { purgeDeleted } from "../../server/store/purge.ts";
import { findTake, refreshAnalyses } from "../../server/store/takes.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { Problem } from "../../src/take/index.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
let take: string;
const { json, call } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

/** Makes the account of a new take one that an older version made, and says what is readable of it. */
async function oldTake(title: string): Promise<string> {
  const form = takeForm(
    { chart: FOUR_BARS, title },
    smallMidi(ARPEGGIOS.map((pitch) => pitch - title.length)),
  );
  const answer = await json("/takes", { method: "POST", body: form });
  const { database } = server.services;
  await database.query(
    "update analyses set version = 'older' where key = (select analysis from takes where id = $1)",
    [answer.take.id],
  );
  // Under the key that the older version gave it.
  await database.transaction(async (inside) => {
    await inside.query(
      `insert into analyses (key, version, facts, account)
       select 'old-' || key, version, facts, account from analyses where version = 'older' and key not like 'old-%'`,
    );
    await inside.query(
      "update takes set analysis = 'old-' || analysis where id = $1 and analysis not like 'old-%'",
      [answer.take.id],
    );
    await inside.query("delete from analyses where version = 'older' and key not like 'old-%'");
  });
  return answer.take.id;
}

async function versionOf(id: string): Promise<string> {
  const rows = await server.services.database.query<{ version: string }>(
    "select a.version from takes t join analyses a on a.key = t.analysis where t.id = $1",
    [id],
  );
  return rows[0]!.version;
}

describe("an account of an older version", () => {
  it("is readable while its successor is made, and then replaced", async () => {
    take = await oldTake("March");
    let go = () => {};
    const gate = new Promise<void>((open) => {
      go = open;
    });
    const { database, analyst } = server.services;
    const slow = {
      ...analyst,
      analyse: async (task: Parameters<typeof analyst.analyse>[0]) => {
        await gate;
        return analyst.analyse(task);
      },
    };
    const refreshed = refreshAnalyses(database, slow, () => {});
    await new Promise((done) => setTimeout(done, 100));
    expect((await call(`/takes/${take}/analysis`)).status).toBe(200);
    expect(await versionOf(take)).toBe("older");
    go();
    expect(await refreshed).toBe(1);
    expect(await versionOf(take)).toBe(ANALYSIS_VERSION);
    expect((await json(`/takes/${take}/analysis`)).analysisVersion).toBe(ANALYSIS_VERSION);
    expect(await refreshAnalyses(database, analyst, () => {})).toBe(0);
    // What the older version made is of no use to anyone now.
    await purgeDeleted(database, 30);
    expect(await database.query("select 1 from analyses where version = 'older'")).toEqual([]);
  });

  it("gives way to what the user changes meanwhile", async () => {
    take = await oldTake("April rain");
    const { database, analyst } = server.services;
    const meanwhile = {
      ...analyst,
      analyse: async (task: Parameters<typeof analyst.analyse>[0]) => {
        const made = await analyst.analyse(task);
        const found = (await findTake(database, take))!;
        await changeTake(database, analyst, found, {
          title: "May",
          chartText: "key: F\n| Fm7 | Bb7 | C7 | Fm7 |",
        });
        return made;
      },
    };
    await refreshAnalyses(database, meanwhile, () => {});
    const changed = await json(`/takes/${take}`);
    expect(changed.title).toBe("May");
    expect((await json(`/takes/${take}/analysis`)).chart.bars[0].chords[0].symbol).toBe("Fm7");
  });

  it("stays when the new version cannot read the file, and the others are made", async () => {
    const bad = await oldTake("no");
    const good = await oldTake("yes!");
    const { database, analyst } = server.services;
    const reports: string[] = [];
    const picky = {
      ...analyst,
      analyse: async (task: Parameters<typeof analyst.analyse>[0]) => {
        const unread = Buffer.from(smallMidi(ARPEGGIOS.map((pitch) => pitch - "no".length)));
        if (unread.equals(task.bytes)) throw new Problem("unreadable", "Unreadable", null, "Try.");
        return analyst.analyse(task);
      },
    };
    expect(await refreshAnalyses(database, picky, (id) => reports.push(id))).toBe(1);
    expect(reports).toEqual([bad]);
    expect([await versionOf(bad), await versionOf(good)]).toEqual(["older", ANALYSIS_VERSION]);
    expect((await call(`/takes/${bad}/analysis`)).status).toBe(200);
  });
});
