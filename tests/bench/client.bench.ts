import type { Browser, Page } from "playwright-core";
import { buildPages, hasChromium, launch, openPage, serve } from "../browser/stage.ts";
import { sampleRecording } from "../client/sample-recording.ts";
import { CHROMIUM } from "../programs.ts";
import type { Bench } from "./types.ts";

const SIZES = [
  { notes: 600, choruses: 8, notesPerBar: 7, limit: 1000 },
  { notes: 5000, choruses: 52, notesPerBar: 8, limit: 1000 },
] as const;
/** Each page is opened this often, the server being warm after the first; the median stands. */
const VISITS = 5;
const FIRST_LOAD_KB = 400;
const FRAME_MS = 16;
const MOVES = 300;
/** From note to note by the arrow key. */
const STEP_MS = 50;
const STEPS = 60;
/** Rows ahead of what is seen are drawn on one side at the top and on both sides below it. */
const GROWTH = 2;

/** Take pages of two sizes in Chromium against the real server, pointing at a large one, and what the first load weighs. */
export const bench: Bench = {
  name: "pages",
  async run() {
    if (!hasChromium) return [`skipped: no ${CHROMIUM.name} here: ${CHROMIUM.without}`];
    await buildPages();
    const server = await serve();
    const browser = await launch();
    const lines: string[] = [];
    try {
      for (const size of SIZES) {
        const id = await send(server.url, size);
        const visits = [];
        for (let i = 0; i <= VISITS; i++) visits.push(await visit(browser, server.url, id));
        const warm = visits.slice(1);
        const ready = median(warm.map((one) => one.ready));
        const floor = median(warm.map((one) => one.floor));
        lines.push(
          `${warm[0]!.notes} notes: answers ${ready.toFixed(0)} ms after navigation (limit ${size.limit}), ${(ready / floor).toFixed(1)} times as long as reading and parsing its account (${floor.toFixed(0)} ms); the page itself works ${median(warm.map((one) => one.work)).toFixed(0)} ms of processor time; the first visit ${visits[0]!.ready.toFixed(0)} ms`,
          `  a key step: ${median(warm.map((one) => one.step)).toFixed(1)} ms from the key to the frame that shows it (limit ${STEP_MS}), 99 % under ${median(warm.map((one) => one.worstStep)).toFixed(1)} ms; ${median(warm.map((one) => one.stepWork)).toFixed(1)} ms of processor time`,
          `  the picture: ${warm[0]!.elements} elements at its top, ${warm[0]!.walked} at most on the way to its end (limit ${GROWTH} times as many), ${warm[0]!.held.toFixed(1)} MB of script held`,
          `  pointing: ${median(warm.map((one) => one.hoverWork)).toFixed(2)} ms of processor time a movement (limit ${FRAME_MS}), by the clock median ${median(warm.map((one) => one.hover)).toFixed(2)} ms, 99 % under ${median(warm.map((one) => one.worst)).toFixed(2)} ms, ${(median(warm.map((one) => one.hover)) / median(warm.map((one) => one.nothing))).toFixed(0)} times an event that nothing hears`,
        );
      }
      lines.push(...(await firstLoad(browser, server.url)));
    } finally {
      await browser.close();
      await server.close();
    }
    return lines;
  },
};

/** A made-up solo of this size on a blues, as a MIDI file, analysed by the server; answers its id. */
async function send(url: string, size: (typeof SIZES)[number]): Promise<string> {
  const bytes = sampleRecording({ choruses: size.choruses, notesPerBar: size.notesPerBar });
  const form = new FormData();
  form.append("file", new Blob([new Uint8Array(bytes)]), `bench-${size.notes}.mid`);
  form.append("form", "blues-basic");
  form.append("key", "F");
  const answer = await fetch(`${url}/api/takes`, { method: "POST", body: form });
  if (!answer.ok) throw new Error(`the take was not accepted: ${await answer.text()}`);
  return ((await answer.json()) as { take: { id: string } }).take.id;
}

interface Visit {
  readonly notes: number;
  /** Milliseconds from navigation to the frame after the first picture stands. */
  readonly ready: number;
  /** Milliseconds that fetching and parsing the same account takes by itself. */
  readonly floor: number;
  /** Milliseconds of processor time of the page's own thread until then: neighbours on the machine do not count. */
  readonly work: number;
  /** Milliseconds of script of one pointer movement, by the clock and in processor time. */
  readonly hover: number;
  readonly hoverWork: number;
  readonly worst: number;
  readonly nothing: number;
  /** Milliseconds from an arrow key to the frame after it, by the clock, and of processor time. */
  readonly step: number;
  readonly worstStep: number;
  readonly stepWork: number;
  /** Elements of the picture at its top, and the most that it had while it was walked through. */
  readonly elements: number;
  readonly walked: number;
  /** Megabytes of script values after that, what nobody holds collected. */
  readonly held: number;
}

async function visit(browser: Browser, url: string, id: string): Promise<Visit> {
  const { page, context } = await openPage(browser, url);
  await page.addInitScript(() => {
    const watch = new MutationObserver(() => {
      if (!document.querySelector(".take .chorus-page")) return;
      watch.disconnect();
      // The frame after the picture stands is the first in which the page answers.
      requestAnimationFrame(() =>
        setTimeout(() => Object.assign(window, { answersAt: performance.now() }), 0),
      );
    });
    watch.observe(document, { childList: true, subtree: true });
  });
  const debug = await context.newCDPSession(page);
  await debug.send("Performance.enable", { timeDomain: "threadTicks" });
  const worked = async () => {
    const { metrics } = await debug.send("Performance.getMetrics");
    return (metrics.find((one) => one.name === "TaskDuration")?.value ?? Number.NaN) * 1000;
  };
  const before = await worked();
  await page.goto(`${url}/#/takes/${id}`);
  await page.waitForFunction(() => "answersAt" in window, null, { timeout: 60_000 });
  const ready = await page.evaluate(() => (window as unknown as { answersAt: number }).answersAt);
  const work = (await worked()) - before;
  const pointed = await pointing(page);
  const pointingFrom = await worked();
  await pointing(page);
  const hoverWork = ((await worked()) - pointingFrom) / MOVES;
  await page.focus("#chorus-page .plot");
  await page.keyboard.press("Home");
  const stepsFrom = await worked();
  const steps = await stepping(page);
  const stepWork = ((await worked()) - stepsFrom) / STEPS;
  const walked = await walking(page);
  await debug.send("HeapProfiler.collectGarbage");
  const { metrics } = await debug.send("Performance.getMetrics");
  const held = metrics.find((one) => one.name === "JSHeapUsedSize")!.value / 2 ** 20;
  const { floor, notes } = await page.evaluate(async (take) => {
    const began = performance.now();
    const account = await (await fetch(`/api/takes/${take}/analysis`)).json();
    return { floor: performance.now() - began, notes: account.notes.length as number };
  }, id);
  await context.close();
  return { ready, floor, notes, work, hoverWork, held, stepWork, ...pointed, ...steps, ...walked };
}

/** A task after the frame's own callbacks runs once the frame is laid out and painted. */
const PAINTED =
  "globalThis.painted = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve, 0)))";

/** Walks from note to note by the arrow key, each step to the frame that shows it. */
async function stepping(page: Page): Promise<Pick<Visit, "step" | "worstStep">> {
  await page.evaluate(PAINTED);
  return page.evaluate(async (count) => {
    const { painted } = window as unknown as { painted(): Promise<void> };
    const plot = document.querySelector<HTMLElement>("#chorus-page .plot")!;
    const times: number[] = [];
    for (let i = 0; i < count; i++) {
      const began = performance.now();
      plot.dispatchEvent(
        new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true, cancelable: true }),
      );
      await painted();
      times.push(performance.now() - began);
    }
    times.sort((a, b) => a - b);
    return { step: times[count >> 1]!, worstStep: times[Math.floor(count * 0.99)]! };
  }, STEPS);
}

/** Walks from chorus to chorus to the end, and counts what stands in the picture at the top and halfway down. */
function walking(page: Page): Promise<Pick<Visit, "elements" | "walked">> {
  return page.evaluate(async () => {
    const { painted } = window as unknown as { painted(): Promise<void> };
    const plot = document.querySelector<HTMLElement>("#chorus-page .plot")!;
    const elements = () => plot.getElementsByTagName("*").length;
    const press = (key: string) =>
      plot.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
    press("Home");
    await painted();
    const before = elements();
    let most = before;
    for (let i = 0; i < 30; i++) {
      press("ArrowDown");
      await painted();
      most = Math.max(most, elements());
    }
    return { elements: before, walked: most };
  });
}

function pointing(page: Page): Promise<Pick<Visit, "hover" | "worst" | "nothing">> {
  return page.evaluate((count) => {
    const svg = document.querySelector<SVGSVGElement>(".chorus-page")!;
    const time = (make: (i: number) => Event) => {
      const times: number[] = [];
      for (let i = 0; i < count; i++) {
        const event = make(i);
        const began = performance.now();
        svg.dispatchEvent(event);
        times.push(performance.now() - began);
      }
      return times.sort((a, b) => a - b);
    };
    const box = svg.getBoundingClientRect();
    const moves = time(
      (i) =>
        new PointerEvent("pointermove", {
          bubbles: true,
          clientX: box.left + ((i * 37) % box.width),
          clientY: box.top + ((i * 53) % Math.min(box.height, 800)),
        }),
    );
    // The clock of a browser is coarse, so nothings are timed together.
    const began = performance.now();
    for (let i = 0; i < 3000; i++) svg.dispatchEvent(new Event("nothing"));
    const nothing = (performance.now() - began) / 3000;
    const at = (share: number) => moves[Math.floor(share * moves.length)]!;
    return { hover: at(0.5), worst: at(0.99), nothing };
  }, MOVES);
}

/** What a browser that was never here fetches for the first page and for a take, without sound and engraver. */
async function firstLoad(browser: Browser, url: string): Promise<string[]> {
  const lines: string[] = [];
  for (const [name, path, ready] of [
    ["first page", "/", ".take-link"],
    ["page of a take", "/takes/tilda-week-1", ".take .chorus-page"],
  ] as const) {
    const { page, context } = await openPage(browser, url);
    const sizes: Promise<number>[] = [];
    page.on("response", (response) => {
      const { pathname } = new URL(response.url());
      if (pathname.startsWith("/api/")) return;
      sizes.push(
        response
          .request()
          .sizes()
          .then(({ responseBodySize }) => responseBodySize),
      );
    });
    await page.goto(`${url}/#${path}`);
    await page.waitForSelector(ready);
    await page.waitForLoadState("networkidle");
    const bytes = (await Promise.all(sizes)).reduce((a, b) => a + b, 0);
    lines.push(
      `${name}: ${(bytes / 1024).toFixed(0)} kB sent in ${sizes.length} files, fonts included (limit ${FIRST_LOAD_KB})`,
    );
    await context.close();
  }
  return lines;
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;
