import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import type {
  CorpusMeasureName,
  CorpusSummary,
  MeasureSpreads,
} from "../../server/contract/corpus-results.ts";
import { classFiles } from "./pages-to-see.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("a corpus in a browser", () => {
  const stage = staged();
  let id: string;

  const api = async (path: string, init?: RequestInit) =>
    (await fetch(`${stage.url}/api${path}`, init)).json();
  const open = async (page: Page, query = "") => {
    await page.goto(`${stage.url}/#/corpora/${id}${query}`);
    await page.waitForSelector("#corpus-ideas h2");
    // Every picture draws when it has its width.
    await page.waitForSelector(".corpus-spreads .bin", { state: "attached" });
  };

  beforeAll(async () => {
    const corpus = await api("/corpora", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ name: "Evening class" }),
    });
    id = corpus.id;
    const form = new FormData();
    for (const { name, buffer } of classFiles())
      form.append("file", new Blob([new Uint8Array(buffer)]), name);
    form.append("form", "blues-quick-change");
    form.append("key", "F");
    const job = await api(`/corpora/${id}/takes`, { method: "POST", body: form });
    while ((await api(`/jobs/${job.id}`)).state !== "done")
      await new Promise((resolve) => setTimeout(resolve, 100));
  });

  test("draws in every picture the numbers that the server gives", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const summary = (await api(`/corpora/${id}/summary?by=player`)) as CorpusSummary;
    const spreads = (await api(`/corpora/${id}/standing`)) as MeasureSpreads;
    const { ideas } = await api(`/corpora/${id}/vocabulary?limit=24`);
    expect(summary.takes).toBe(9);
    await open(page);

    const panels = await page.$$eval(".corpus-spreads [data-measure]", (all) =>
      all.map((panel) => {
        const one = (name: string) => panel.querySelector<SVGElement>(`[data-${name}]`)!.dataset[name];
        return {
          measure: (panel as SVGElement).dataset.measure as CorpusMeasureName,
          median: Number(one("median")),
          q1: Number(one("q1")),
          bins: [...panel.querySelectorAll<SVGElement>(".bin")].map((bin) => ({
            takes: Number(bin.dataset.takes),
            height: Number(bin.getAttribute("height")),
          })),
          ticks: [...panel.querySelectorAll<SVGElement>(".take-tick")].map((tick) => [
            tick.dataset.take!,
            Number(tick.dataset.value),
            Number(/^M([\d.]+)/.exec(tick.getAttribute("d")!)![1]),
          ]),
        };
      }),
    );
    expect(panels).toHaveLength(6);
    for (const panel of panels) {
      const given = spreads.measures.find((one) => one.measure === panel.measure)!;
      expect(panel.median).toBe(summary.measures[panel.measure]!.median);
      expect(panel.q1).toBe(summary.measures[panel.measure]!.q1);
      expect(panel.bins.map((bin) => bin.takes)).toEqual(given.bins.map((bin) => bin.takes));
      expect(panel.ticks.map(([take, value]) => [take, value])).toEqual(
        spreads.rows.flatMap((row) =>
          row.values[panel.measure] === null ? [] : [[row.take, row.values[panel.measure]]],
        ),
      );
      const tallest = panel.bins.reduce((a, b) => (b.takes > a.takes ? b : a));
      for (const bin of panel.bins)
        expect(bin.height).toBeCloseTo((bin.takes / tallest.takes) * tallest.height, 0);
      // The ticks stand in the order of their values.
      const places = [...panel.ticks].sort((a, b) => Number(a[1]) - Number(b[1])).map((tick) => tick[2]);
      expect(places).toEqual([...places].sort((a, b) => Number(a) - Number(b)));
    }

    const scores = await page.$$eval(".corpus-outliers .take-row", (rows) =>
      rows.map((row) => [
        (row as SVGElement).dataset.take,
        [...row.querySelectorAll<SVGElement>(".score-dot")].map((dot) => [
          dot.dataset.measure,
          Number(dot.dataset.score),
          dot.classList.contains("far"),
        ]),
      ]),
    );
    const apart = spreads.rows.filter((row) => row.furthest > spreads.limit);
    expect(apart.length).toBeGreaterThan(0);
    expect(scores).toEqual(
      apart.map((row) => [
        row.take,
        spreads.measures.flatMap(({ measure }) => {
          const score = row.scores[measure];
          return score === null || score === undefined
            ? []
            : [[measure, score, Math.abs(score) > spreads.limit]];
        }),
      ]),
    );

    const shares = await page.$$eval(".corpus-roles .part-row", (rows) =>
      rows.map((row) => [
        (row as SVGElement).dataset.part,
        Object.fromEntries(
          [...row.querySelectorAll<SVGElement>("[data-share]")]
            .filter((bar) => Number(bar.dataset.share) > 0)
            .map((bar) => [bar.dataset.role, Number(bar.dataset.share)]),
        ),
      ]),
    );
    expect(Object.fromEntries(shares)).toEqual(
      Object.fromEntries(summary.groups.map((group) => [group.value, group.roles])),
    );
    expect(shares.map(([part]) => part)).toContain("Tilda");

    const drawn = await page.$$eval(".corpus-ideas .idea-row", (rows) =>
      rows.map((row) => [
        Number(row.querySelector<SVGElement>("[data-takes]")!.dataset.takes),
        Number((row as SVGElement).dataset.occurrences),
      ]),
    );
    expect(drawn).toEqual(
      ideas.map((idea: { takes: number; occurrences: number }) => [idea.takes, idea.occurrences]),
    );
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("searches a pattern that was typed or clicked among the ideas, and draws each place where it is played", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await open(page);
    await page.fill('[name="symbols"]', "-1 -2");
    await page.click("button:has-text('Search')");
    await page.waitForSelector(".corpus-hits .hit-mark");
    const { found, hits } = await api(`/corpora/${id}/search`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ symbols: [-1, -2], limit: 400 }),
    });
    const marks = await page.$$eval(".corpus-hits .take-row", (rows) =>
      rows.flatMap((row) =>
        [...row.querySelectorAll<SVGElement>(".hit-mark")].map(
          (mark) => `${(row as SVGElement).dataset.take} ${mark.dataset.note} ${mark.dataset.bar}`,
        ),
      ),
    );
    expect(marks.sort()).toEqual(
      hits.map((hit: Record<string, unknown>) => `${hit.take} ${hit.firstNote} ${hit.bar}`).sort(),
    );
    expect(marks).toHaveLength(found);
    expect(page.url()).toContain("find=-1+-2");
    await page.click("text=Each place, to read and to hear");
    const first = page.locator(".hits a[href*='?note=']").first();
    const href = await first.getAttribute("href");
    await first.click();
    await page.waitForSelector(".chorus-page");
    expect(page.url()).toContain(href!);
    await page.goBack();
    await page.waitForSelector(".corpus-hits .hit-mark");

    await page.locator(".idea-row").last().click();
    await expect.poll(() => page.textContent("#corpus-hits h2")).not.toContain(`${found} place`);
    const { ideas } = await api(`/corpora/${id}/vocabulary?limit=24`);
    const idea = ideas.at(-1);
    // Every place where the idea is a motif is a place where it is played.
    await expect
      .poll(() => page.locator(".corpus-hits .hit-mark").count())
      .toBeGreaterThanOrEqual(idea.occurrences);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("links its pictures by one take and one group, kept in the address", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await open(page);
    const spreads = (await api(`/corpora/${id}/standing`)) as MeasureSpreads;
    const furthest = spreads.rows[0]!;
    // A take has no tick where it was not measured: without a beat there is neither swing nor timing.
    const measured = Object.values(furthest.values).filter((value) => value !== null).length;
    expect(measured).toBeGreaterThanOrEqual(4);
    await page.locator(`.corpus-outliers [data-take="${furthest.take}"] .row-field`).click();
    await expect.poll(() => page.locator(".corpus-spreads .take-tick.on").count()).toBe(measured);
    expect(await page.textContent(".chosen-take")).toContain(furthest.title);
    expect(await page.inputValue('[name="take"]')).toBe(furthest.take);
    expect(page.url()).toContain(`take=${furthest.take}`);
    await page.reload();
    await page.waitForSelector(".corpus-outliers .take-row.on");
    await expect.poll(() => page.locator(".corpus-spreads .take-tick.on").count()).toBe(measured);

    await page.locator('.corpus-roles [data-part="Tilda"] .row-field').click();
    await expect.poll(() => page.textContent(".take-head .take-facts")).toMatch(/^Three takes by one player/);
    const part = (await api(`/corpora/${id}/summary?player=Tilda`)) as CorpusSummary;
    await expect
      .poll(() => page.locator('.corpus-spreads [data-measure="rests"] .median').getAttribute("data-median"))
      .toBe(String(part.measures.rests!.median));
    // Three takes are too few to say that one stands apart.
    expect(await page.textContent("#corpus-outliers .empty")).toContain("Five takes");
    expect(page.url()).toContain("part=Tilda");
    await page.reload();
    await expect.poll(() => page.textContent(".take-head .take-facts")).toMatch(/^Three takes/);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("saves each picture as SVG and PNG, and has each as a table", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await open(page, "?find=-1+-2");
    await page.waitForSelector(".corpus-hits .hit-mark");
    const views = await page.$$eval(".view", (all) => all.map((view) => view.id));
    expect(views).toEqual([
      "corpus-spreads",
      "corpus-outliers",
      "corpus-roles",
      "corpus-ideas",
      "corpus-hits",
    ]);
    for (const view of views) {
      for (const kind of ["SVG", "PNG"] as const) {
        const [file] = await Promise.all([
          page.waitForEvent("download"),
          page.click(`#${view} [aria-label="Save picture as ${kind}"]`),
        ]);
        const bytes = readFileSync(await file.path());
        expect(file.suggestedFilename()).toBe(`${view}.${kind.toLowerCase()}`);
        expect(bytes.length).toBeGreaterThan(1500);
      }
      await page.click(`#${view} .as-table summary`);
      await page.waitForSelector(`#${view} table tbody tr`);
    }
    await context.close();
  });

  test("comes back with its takes when its deletion is undone", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/corpora`);
    await page.click('[aria-label="Delete Evening class"]');
    await page.waitForSelector(".notice:has-text('is deleted')");
    await expect.poll(() => page.locator(".corpus-line").count()).toBe(0);
    expect((await fetch(`${stage.url}/api/corpora/${id}`)).status).toBe(404);
    await page.click(".notice button");
    await page.waitForSelector(".corpus-line:has-text('nine takes')");
    expect((await api(`/corpora/${id}/summary`)).takes).toBe(9);
    expect(trouble).toEqual([]);
    await context.close();
  });
});
