import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { waltz } from "../align/waltz.ts";
import { violationsOf } from "./axe.ts";
import { oneTrack } from "./one-track.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

/** One chord all along: where its bars begin no chord tells. */
const CHART = "key: C\nmeter: 3/4\n| C |";
const { take: played, beats } = waltz(undefined, 2);
/** The waltz on the ticks of a recorder that knows no beat. */
const FILE = oneTrack(
  120,
  3,
  played.notes.map(({ pitch, onset, duration }) => ({ pitch, at: onset * 2, beats: duration * 2 })),
);

describe.skipIf(!hasChromium)(
  "a take that both hands play freely, whose bars may begin on another beat",
  () => {
    const stage = staged();

    test("asks, lists the other readings, lays the bars by the one that is pressed, and back by Undo", async () => {
      const body = new FormData();
      body.append("file", new Blob([new Uint8Array(FILE)]), "waltz.mid");
      body.append("chart", CHART);
      // Other chords are heard than this one: whoever sends it so has said that it is the chart.
      body.append("options", JSON.stringify({ chartConfirmed: true }));
      const { take } = await (await fetch(`${stage.url}/api/takes`, { method: "POST", body })).json();
      const alignment = async () =>
        ((await (await fetch(`${stage.url}/api/takes/${take.id}/analysis`)).json()) as Analysis).alignment;
      const before = await alignment();
      const later = before.alternatives!.find(({ why }) => why === "bars begin one beat later")!;
      expect(later.pins!.length).toBeGreaterThan(2);

      const { page, context, trouble } = await openPage(stage.browser, stage.url);
      await page.goto(`${stage.url}/#/takes/${take.id}`);
      // Nobody knows where the bars lie: the page asks by itself.
      await page.waitForSelector(".glance.asked[open]");
      expect(await violationsOf(page)).toEqual([]);
      await page.click(".glance >> text=/bars begin one beat later/");
      await page.waitForSelector(".notice:has-text('bars begin one beat later')");
      const after = await alignment();
      expect(after.anchors).toEqual(later.pins);
      // Each bar line is a beat of the waltz further than it was.
      const beatOf = (seconds: number) =>
        beats.reduce(
          (best, at, k) => (Math.abs(at - seconds) < Math.abs(beats[best]! - seconds) ? k : best),
          0,
        );
      const lines = ({ bars }: Analysis["alignment"]) =>
        bars.slice(4, -4).map(({ start }) => beatOf(start) % 3);
      const [was, is] = [new Set(lines(before)), new Set(lines(after))];
      expect([was.size, is.size]).toEqual([1, 1]);
      expect([...is][0]).toBe(([...was][0]! + 1) % 3);

      await page.locator(".notice").getByRole("button", { name: "Undo", exact: true }).click();
      await page.waitForSelector(".notice:has-text('as it was before')");
      expect((await alignment()).bars).toEqual(before.bars);
      expect(trouble).toEqual([]);
      await context.close();
    });
  },
);
