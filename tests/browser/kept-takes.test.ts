/** What the browser keeps of a pupil: nothing, unless somebody chose it, and nothing after signing out or deleting. */
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { hasChromium, keepOpenedTakes, underWorker } from "./stage.ts";
import { staged } from "./staged.ts";

const ID = "tilda-week-1";
const OTHER = "maren-lantern-yard";

describe.skipIf(!hasChromium)("what is kept in the browser", () => {
  const stage = staged();

  /** Every path in every cache of the browser. */
  const kept = (page: Page) =>
    page.evaluate(async () => {
      const paths: string[] = [];
      for (const name of await caches.keys())
        for (const request of await (await caches.open(name)).keys())
          paths.push(new URL(request.url).pathname);
      return paths.sort();
    });
  /** The usual forms and hand shapes are the same for everybody. */
  const ofNobody = /^\/api\/(forms|shapes\/built-in)$/;
  const keptOfPupils = async (page: Page) =>
    (await kept(page)).filter((path) => path.startsWith("/api/") && !ofNobody.test(path));
  /** Every name and value in the storages and databases of this origin, as text. */
  const stored = (page: Page) =>
    page.evaluate(async () => {
      const found: unknown[] = [{ ...localStorage }, { ...sessionStorage }, document.cookie];
      const settled = <T>(request: IDBRequest<T>) =>
        new Promise<T>((done, fail) => {
          request.onsuccess = () => done(request.result);
          request.onerror = () => fail(request.error);
        });
      for (const { name } of await indexedDB.databases()) {
        const database = await settled(indexedDB.open(name!));
        for (const store of database.objectStoreNames)
          found.push(name, store, await settled(database.transaction(store).objectStore(store).getAll()));
        database.close();
      }
      return JSON.stringify(found);
    });
  const openTake = async (page: Page, id: string) => {
    await page.goto(`${stage.url}/#/takes/${id}`);
    await page.waitForSelector(".chorus-page");
  };

  test("keeps the program and nothing of a take, unless that is chosen", async () => {
    const context = await stage.browser.newContext();
    const page = await context.newPage();
    await underWorker(page, stage.url);
    await openTake(page, ID);
    await page.goto(`${stage.url}/#/players/tilda`);
    await page.waitForSelector("h1");
    const paths = await kept(page);
    expect(paths).toContain("/");
    const program = /^\/(assets\/|piano\/|icon(-maskable)?(-\d+)?\.(svg|png)$|manifest\.webmanifest$|$)/;
    expect(paths.filter((path) => !program.test(path) && !ofNobody.test(path))).toEqual([]);
    expect(await stored(page)).not.toMatch(/tilda|week-/i);

    await page.goto(`${stage.url}/#/`);
    await page.check("[name=keep-takes]");
    await openTake(page, ID);
    await expect.poll(() => keptOfPupils(page)).toContain(`/api/takes/${ID}/analysis`);
    // The first page itself may have opened the newest take, which is chosen then like any other.
    await page.goto(`${stage.url}/#/`);
    await page.uncheck("[name=keep-takes]");
    await expect.poll(() => keptOfPupils(page)).toEqual([]);
    await context.close();
  });

  test("forgets the takes on signing out and on deletion", async () => {
    const context = await stage.browser.newContext();
    const page = await context.newPage();
    await keepOpenedTakes(page, stage.url);
    await openTake(page, ID);
    await expect.poll(() => keptOfPupils(page)).toContain(`/api/takes/${ID}/analysis`);
    // Deleting a player takes more than its own takes' addresses name, so that all that is kept goes.
    const { id } = await page.evaluate(async () => {
      const headers = { "content-type": "application/json" };
      const body = JSON.stringify({ name: "Somebody" });
      return (await fetch("/api/players", { method: "POST", headers, body })).json();
    });
    await page.evaluate((player) => fetch(`/api/players/${player}`, { method: "DELETE" }), id);
    expect(await keptOfPupils(page)).toEqual([]);
    // What is half written or could not be sent waits in the browser.
    await page.evaluate((take) => {
      sessionStorage.setItem(`ledgerline-own-view ${take}`, "It rushed.");
      localStorage.setItem(`ledgerline-feedback ${take} another`, '{"title":"It rushed"}');
    }, OTHER);
    // The choice stands.
    await openTake(page, OTHER);
    await expect.poll(() => keptOfPupils(page)).toContain(`/api/takes/${OTHER}/analysis`);

    await page.goto(`${stage.url}/#/`);
    const reloaded = page.waitForEvent("load");
    await page.click("button:has-text('Sign out')");
    await reloaded;
    await page.waitForSelector(".this-browser");
    expect(await page.evaluate(() => caches.has("ledgerline-takes"))).toBe(false);
    expect(await page.isChecked("[name=keep-takes]")).toBe(false);
    expect(await keptOfPupils(page)).toEqual([]);
    expect(await stored(page)).not.toMatch(/tilda|maren|rushed/i);
    await context.close();
  });
});
