import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import type { AccountNote, Analysis } from "../../src/account.ts";
import type { Comparison, ManyCompared } from "../../src/compare/comparison-schema.ts";
import type { Progress } from "../../src/compare/progress-schema.ts";
import type { PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const ID = "bram-quick-change";

/** Attributes of all drawn signs that `selector` names, numbers as numbers. */
const read = (page: Page, selector: string, attributes: readonly string[]) =>
  page.$$eval(
    selector,
    (all, names) =>
      all.map((one) =>
        names.map((name) => {
          const text = one.getAttribute(name);
          return text === null || text === "" || Number.isNaN(Number(text)) ? text : Number(text);
        }),
      ),
    attributes,
  );

describe.skipIf(!hasChromium)("the numbers in the pictures are the numbers of the account", () => {
  const stage = staged();
  let analysis: Analysis;
  let solo: AccountNote[];

  beforeAll(async () => {
    analysis = await api(`/takes/${ID}/analysis`);
    solo = analysis.notes.filter((note) => note.solo);
  });

  const api = async <T>(path: string): Promise<T> =>
    (await (await fetch(`${stage.url}/api${path}`)).json()) as T;
  const open = async (path: string, ready: string, first = ".view") => {
    const watched = await openPage(stage.browser, stage.url);
    await watched.page.goto(`${stage.url}/#${path}`);
    // Pictures are drawn when they come near the window.
    await watched.page.waitForSelector(first);
    await watched.page.evaluate(async () => {
      for (let y = 0; y < document.body.scrollHeight; y += 300) {
        window.scrollTo(0, y);
        await new Promise((resolve) => setTimeout(resolve, 30));
      }
    });
    await watched.page.waitForSelector(ready, { state: "attached" });
    return watched;
  };

  test("chorus page: pitch upwards, time to the right, each field with its notes and its certainty", async () => {
    const { page, context } = await open(`/takes/${ID}`, ".chorus-page");
    const signs = await page.$$eval(".chorus-page path[data-note]", (all) =>
      all.map((one) => {
        const [, x, y] = /translate\(([\d.]+),([\d.]+)\)/.exec(one.getAttribute("transform")!)!;
        return { id: (one as SVGElement).dataset.note!, x: Number(x), y: Number(y) };
      }),
    );
    const at = new Map(signs.map((sign) => [sign.id, sign]));
    const fields = await read(page, ".chorus-page .field", [
      "data-chorus",
      "data-bar",
      "data-notes",
      "data-confidence",
      "x",
      "width",
    ]);
    for (const [chorus, bar, notes, confidence, x, width] of fields as number[][]) {
      const own = solo.filter((note) => note.chorus === chorus && note.bar === bar);
      const time = analysis.alignment.bars.find((one) => one.chorus === chorus && one.bar === bar)!;
      expect(notes).toBe(own.length);
      expect(confidence).toBe(time.confidence);
      for (const note of own) {
        const { x: place } = at.get(note.id)!;
        expect(place).toBeGreaterThan(x! - 12);
        expect(place).toBeLessThan(x! + width! + 12);
      }
      // In one field a later note stands to the right of an earlier one, and a higher note above a lower one.
      for (const a of own) {
        for (const b of own) {
          const [p, q] = [at.get(a.id)!, at.get(b.id)!];
          if (b.onset - a.onset > 0.02) expect(q.x).toBeGreaterThan(p.x);
          if (b.pitch > a.pitch) expect(q.y).toBeLessThan(p.y);
        }
      }
    }
    await context.close();
  });

  test("hand: each placement's reach from its lowest to its highest note, its fingers, the shift into it", async () => {
    const { page, context } = await open(`/takes/${ID}?reading=hand`, ".chorus-page .bracket");
    const brackets = await page.$$eval(".chorus-page .bracket", (all) =>
      all.map((one) => {
        const field = one.querySelector(".bracket-field")!.getBoundingClientRect();
        return {
          id: (one as SVGElement).dataset.placement!,
          anchor: Number((one as SVGElement).dataset.anchor),
          shift: one.querySelector(".shift")?.textContent ?? null,
          ...{ left: field.left, right: field.right, top: field.top, bottom: field.bottom },
        };
      }),
    );
    expect([...new Set(brackets.map(({ id }) => id))]).toEqual(analysis.placements.map(({ id }) => id));
    const signs = await page.$$eval(".chorus-page .notes text", (all) =>
      all.map((one) => {
        const box = one.getBoundingClientRect();
        const middle = [(box.left + box.right) / 2, (box.top + box.bottom) / 2] as const;
        return { id: (one as SVGElement).dataset.note!, text: one.textContent, middle };
      }),
    );
    expect(signs.map(({ id, text }) => [id, text])).toEqual(
      solo.map((note) => [note.id, note.finger === null ? "–" : String(note.finger)]),
    );
    // Each note of a placement lies in a field of it.
    for (const { id, middle } of signs) {
      const { placement } = solo.find((note) => note.id === id)!;
      if (placement === null) continue;
      const [x, y] = middle;
      const own = brackets.filter((one) => one.id === placement);
      expect(
        own.some((one) => one.left <= x && x <= one.right && one.top <= y && y <= one.bottom),
        `${id} in ${placement}`,
      ).toBe(true);
    }
    for (const placement of analysis.placements) {
      const own = brackets.filter(({ id }) => id === placement.id);
      expect(own[0]!.anchor).toBe(placement.anchorPitch);
      const said = own.map(({ shift }) => shift).filter((shift) => shift !== null);
      expect(said.map((shift) => Number(shift.replace("−", "-")))).toEqual(
        placement.shift ? [placement.shift] : [],
      );
    }
    await context.close();
  });

  test("ideas: a bracket for every occurrence that there is room for, over its notes, by what returned", async () => {
    const { page, context } = await open(`/takes/${ID}?reading=ideas`, ".motif-list .lane");
    const rows = await page.$$eval(".motif-list .lane", (all) =>
      all.map((lane) => [(lane as SVGElement).dataset.motif, Number((lane as SVGElement).dataset.count)]),
    );
    expect(rows).toEqual(analysis.motifs.map((motif) => [motif.id, motif.occurrences.length]));
    const brackets = (await read(page, ".chorus-page .occurrence-group", [
      "data-motif",
      "data-first",
      "data-relation",
    ])) as string[][];
    expect(brackets.length).toBeGreaterThan(3);
    const known = new Set(
      analysis.motifs.flatMap((motif) =>
        motif.occurrences.map((one) => `${motif.id} ${one.firstNote} ${one.relation}`),
      ),
    );
    for (const bracket of brackets) expect(known).toContain(bracket.join(" "));
    // Brackets of one line never run through each other.
    const boxes = await page.$$eval(".chorus-page .occurrence", (all) =>
      all.map((one) => {
        const { left, right, top, bottom } = one.getBoundingClientRect();
        return { left, right, top, bottom };
      }),
    );
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1))
        expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
    await context.close();
  });

  test("role shares by chord and by beat: counted from the account's labels", async () => {
    const { page, context } = await open(`/takes/${ID}`, ".role-shares .column");
    for (const [by, keyOf] of [
      ["chord", (note: AccountNote) => note.chord ?? "N.C."],
      ["beat", (note: AccountNote) => `Beat ${Math.floor(note.beat! + 0.01)}`],
    ] as const) {
      await page.locator("#role-shares select").selectOption(by);
      const drawn = await page.$$eval(".role-shares .column", (columns) =>
        columns.map((column) => [
          (column as SVGElement).dataset.column!.replace("♭", "b").replace("♯", "#"),
          Object.fromEntries(
            [...column.querySelectorAll<SVGElement>("[data-share]")].map((bar) => [
              bar.dataset.role,
              Number(bar.dataset.share),
            ]),
          ),
        ]),
      );
      const counts = new Map<string, Map<string, number>>();
      for (const note of solo) {
        const roles = counts.get(keyOf(note)) ?? new Map<string, number>();
        roles.set(note.role!, (roles.get(note.role!) ?? 0) + 1);
        counts.set(keyOf(note), roles);
      }
      expect(new Set(drawn.map(([name]) => name))).toEqual(new Set(counts.keys()));
      for (const [name, shares] of drawn as [string, Record<string, number>][]) {
        const roles = counts.get(name)!;
        const all = [...roles.values()].reduce((a, b) => a + b, 0);
        for (const [role, share] of Object.entries(shares))
          expect(share, `${name}, ${role}`).toBeCloseTo((roles.get(role) ?? 0) / all, 12);
      }
    }
    await context.close();
  });

  test("register: the middle half and the median of each chorus stand where their keys stand", async () => {
    const { page, context } = await open(`/takes/${ID}?reading=register`, "svg.register .register-row");
    const keys = new Map(
      ((await read(page, "svg.register .key", ["data-pitch", "x", "width"])) as number[][]).map(
        ([pitch, x, width]) => [pitch!, x! + width! / 2],
      ),
    );
    const medians = await page.$$eval("svg.register .median", (all) =>
      all.map((one) => Number(/^M([\d.]+)/.exec(one.getAttribute("d")!)![1])),
    );
    analysis.choruses.forEach((chorus, i) => {
      const median = chorus.register.quantiles[2]!;
      if (Number.isInteger(median)) expect(medians[i]).toBeCloseTo(keys.get(median)!, 0);
      else {
        expect(medians[i]).toBeGreaterThan(keys.get(Math.floor(median))!);
        expect(medians[i]).toBeLessThan(keys.get(Math.ceil(median))!);
      }
    });
    await context.close();
  });

  test("time: early and late in milliseconds of the bar that was played, swing by beat", async () => {
    const { page, context } = await open(`/takes/${ID}?reading=time`, ".swing-by-beat .swing-dot");
    const dots = (await read(page, ".chorus-page .late-dot", ["data-note", "data-late", "cy"])) as [
      string,
      number,
      number,
    ][];
    const timed = solo.filter((note) => note.timing !== null);
    expect(dots.map(([id]) => id)).toEqual(timed.map((note) => note.id));
    const { beats, unit } = analysis.chart.meter;
    for (const [i, [, late]] of dots.entries()) {
      const note = timed[i]!;
      const bar = analysis.alignment.bars.find((one) => one.chorus === note.chorus && one.bar === note.bar)!;
      const quarter = (bar.end - bar.start) / ((beats * 4) / unit);
      expect(late).toBeCloseTo(note.timing! * quarter * 1000, 1);
    }
    // In one chorus a later note stands lower.
    const chorus = dots.filter((_, i) => timed[i]!.chorus === 1);
    for (const [, late, y] of chorus.slice(0, 30)) {
      for (const [, other, z] of chorus.slice(0, 30)) if (other - late > 1) expect(z).toBeGreaterThan(y);
    }
    const swing = await read(page, ".swing-by-beat .swing-dot", ["data-beat", "data-swing"]);
    expect(swing).toEqual(analysis.rhythm.swingByBeat.map((one) => [one.beat, one.swing.median]));
    await context.close();
  });

  test("line: each phrase a bow with its notes and the rest after it, each figure a bracket with its name", async () => {
    const { page, context } = await open(`/takes/${ID}?reading=line`, ".chorus-page .arc");
    const bows = await read(page, ".chorus-page .arc", ["data-phrase", "data-notes", "data-rest"]);
    expect([...new Map(bows.map((bow) => [bow[0], bow])).values()]).toEqual(
      analysis.phrases.map((phrase) => [phrase.id, phrase.notes, phrase.restBeats]),
    );
    const named = new Set<string>(analysis.devices.map((device) => device.name));
    for (const [name] of await read(page, ".chorus-page .figure-bracket", ["data-device"]))
      expect(named).toContain(name);
    await context.close();
  });

  test("staff: every note of the solo, its role on its head, its finger above it", async () => {
    const { page, context } = await open(`/takes/${ID}`, ".chorus-page");
    await page.click("text=Engrave the staff");
    await page.waitForSelector(".engraved g.note", { timeout: 40_000 });
    const heads = await page.$$eval(".engraved g.note", (notes) =>
      notes.map((note) => [
        note.getAttribute("data-note")!,
        [...note.classList].find((c) => c.startsWith("role-")),
      ]),
    );
    const byId = new Map(solo.map((note) => [note.id, note]));
    const drawn = heads.filter(([id]) => byId.has(id!));
    expect(new Set(drawn.map(([id]) => id))).toEqual(new Set(byId.keys()));
    for (const [id, role] of drawn) expect(role).toBe(`role-${byId.get(id!)!.role ?? "none"}`);
    const fingers = await page.$$eval(".engraved g.fing", (all) =>
      all.map((one) => one.textContent!.trim()).filter((text) => /^\d$/.test(text)),
    );
    const given = solo.filter((note) => note.finger !== null).map((note) => String(note.finger));
    expect(fingers.sort()).toEqual(given.sort());
    // As the words above the staff say: worked out in italics, printed ones upright.
    const italic = await page.$$eval(".engraved g.fing", (all) =>
      all.map((one) => [
        (one as SVGElement).dataset.startid!.slice(1),
        getComputedStyle(one.querySelector("text")!).fontStyle === "italic",
      ]),
    );
    expect(italic.length).toBe(given.length);
    for (const [id, leaning] of italic)
      expect(leaning, String(id)).toBe(byId.get(String(id))!.fingerSource === "inferred");
    await context.close();
  });

  test("comparison of two: measures, shares and the notes of the same bar", async () => {
    const question = "a=tilda-week-1&b=tilda-week-8";
    const comparison = await api<Comparison>(`/compare?${question}`);
    const { page, context } = await open(`/compare?${question}`, ".bars-together");
    const known = comparison.measures.filter((one) => one.a !== null && one.b !== null);
    expect(await read(page, ".compared .side-a", ["data-measure", "data-a"])).toEqual(
      known.map((one) => [one.id, one.a]),
    );
    expect(await read(page, ".compared .side-b", ["data-measure", "data-b"])).toEqual(
      known.map((one) => [one.id, one.b]),
    );
    for (const one of comparison.distributions) {
      for (const [side, shares] of [
        ["a", one.a],
        ["b", one.b],
      ] as const) {
        const bars = await read(page, `[id="shares-${one.id}"] .bar-${side}`, ["data-label", "data-share"]);
        expect(bars.length).toBeGreaterThan(0);
        for (const [label, share] of bars) expect(share).toBe(shares[String(label)] ?? 0);
      }
    }
    const notes = await read(page, ".bars-together [data-note]", ["data-note", "data-side"]);
    expect(notes).toEqual(
      comparison.bars.flatMap((bar) =>
        bar.layers.flatMap((layer) => layer.notes.map((note) => [note.id, layer.side])),
      ),
    );
    await context.close();
  });

  test("comparison of many: each side's value in each measure, its shares", async () => {
    const question = "sides=tilda-week-1,tilda-week-4,tilda-week-8";
    const many = await api<ManyCompared>(`/compare?${question}`);
    const { page, context } = await open(`/compare?${question}`, ".shares-many");
    expect(
      await read(page, ".small-multiples [data-value]", ["data-measure", "data-side", "data-value"]),
    ).toEqual(
      many.measures
        .filter((row) => row.values.filter((one) => one !== null).length >= 2)
        .flatMap((row) => row.values.flatMap((one, k) => (one === null ? [] : [[row.id, k, one]]))),
    );
    const shares = await read(page, ".shares-many [data-share]", ["data-label", "data-side", "data-share"]);
    expect(shares.length).toBeGreaterThan(10);
    const all = many.distributions.flatMap((one) =>
      one.shares.flatMap((own, side) =>
        Object.entries(own).map(([label, share]) => `${label} ${side} ${share}`),
      ),
    );
    for (const [label, side, share] of shares)
      if (Number(share) > 0) expect(all).toContain(`${label} ${side} ${share}`);
    await context.close();
  });

  test("comparison of four: the same bar of each in a row of its own, in the order of the sides", async () => {
    const sides = ["tilda-week-1", "tilda-week-4", "tilda-week-8", "maren-quick-change"];
    const { page, context } = await open(`/compare?sides=${sides.join(",")}`, ".bars-together");
    const signs = await page.$$eval(".bars-together [data-note]", (all) =>
      all.map((one) => ({
        side: Number((one as SVGElement).dataset.side),
        y: Number(/,([\d.]+)\)/.exec(one.getAttribute("transform")!)![1]),
      })),
    );
    const rows = sides.map((_, side) => signs.filter((one) => one.side === side).map(({ y }) => y));
    for (const [side, ys] of rows.entries()) {
      expect(ys.length).toBeGreaterThan(10);
      // A line of bars is as wide as the page: all of them stand in one.
      if (side > 0) expect(Math.min(...ys)).toBeGreaterThan(Math.max(...rows[side - 1]!));
    }
    // On paper no picture is higher than a page of letter between margins of 14 mm, on which it would be cut.
    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 688, height: 900 });
    const heights = await page.$$eval(".view", (all) => all.map((one) => one.getBoundingClientRect().height));
    expect(heights.length).toBeGreaterThan(5);
    expect(Math.max(...heights)).toBeLessThan(((279.4 - 28) / 25.4) * 96);
    await context.close();
  });

  test("progress: each take's numbers, and which finding was said of which take", async () => {
    const progress = await api<Progress>("/players/tilda/progress");
    const { page, context } = await open("/players/tilda", ".finding-history");
    expect(await read(page, ".progress [data-value]", ["data-number", "data-take", "data-value"])).toEqual(
      progress.measures.flatMap((measure) =>
        measure.points.flatMap((point) =>
          point.value === null ? [] : [[measure.id, point.take, point.value]],
        ),
      ),
    );
    const said = await read(page, ".finding-history [data-finding]", ["data-finding", "data-take"]);
    expect(said.map(String).sort()).toEqual(
      progress.findings.flatMap((line) => line.takes.map((take) => `${line.id},${take}`)).sort(),
    );
    await context.close();
  });

  test("placement map: keys, fingers and slides of every placement", async () => {
    const question = "form=blues-basic&key=F&shape=third-and-steps";
    const map = await api<PlacementMap>(`/placements?${question}`);
    const { page, context } = await open(`/placements?${question}`, ".map-placement", ".map-placement");
    const cards = await page.$$eval(".map-placement", (all) =>
      all.map((card) => ({
        id: (card as HTMLElement).dataset.placement!,
        onWay: card.classList.contains("on-way"),
        keys: [...card.querySelectorAll<SVGElement>(".finger-spot")].map((spot) => [
          Number(spot.dataset.pitch),
          Number(spot.dataset.finger),
        ]),
        slides: [...card.querySelectorAll<SVGElement>(".slide")].map((one) => [
          Number(one.dataset.from),
          Number(one.dataset.to),
        ]),
      })),
    );
    expect(cards.length).toBeGreaterThan(5);
    const known = map.chords.flatMap((chord) => chord.placements.map((placement) => ({ chord, placement })));
    for (const card of cards) {
      const { placement } = known.find(({ placement: one }) => one.id === card.id)!;
      expect(card.keys).toEqual(placement.keys.map((key) => [key.pitch, key.finger]));
      expect(card.slides).toEqual(placement.slides.map((slide) => [slide.from, slide.to]));
      expect(card.onWay).toBe(map.way.steps.some((step) => step.placement === card.id));
    }
    await context.close();
  });
});
