/** Every page and state that is looked at and tested, with what must be there before it counts as shown. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { wave } from "../listen/sounds.ts";

const TAKES = join(import.meta.dirname, "../../corpus/takes");

/** What an evening class sends in: enough takes that one can stand apart. */
const CLASS = [
  "tilda-week-1.mid",
  "tilda-week-4.mid",
  "tilda-week-8.mid",
  "jonas-pickup.mid",
  "jonas-quick-change.mid",
  "bram-quick-change.mid",
  "maren-quick-change.mid",
  "maren-rubato.mid",
  "bram-lantern-yard.musicxml",
];

/** The takes of the class with a manifest that names their players. */
export function classFiles(): { name: string; mimeType: string; buffer: Buffer }[] {
  const type = "application/octet-stream";
  const manifest = ["file,player", ...CLASS.map((name) => `${name},${name.split("-")[0]}`)].join("\n");
  return [
    { name: "manifest.csv", mimeType: "text/csv", buffer: Buffer.from(manifest) },
    ...CLASS.map((name) => ({ name, mimeType: type, buffer: readFileSync(join(TAKES, name)) })),
  ];
}

/** The first take once more, under another name. */
function withOneAgain(files: ReturnType<typeof classFiles>): typeof files {
  const [manifest, first, ...others] = files;
  const name = "sent-again.mid";
  const rows = `${manifest!.buffer}\n${name},${first!.name.split("-")[0]}`;
  return [{ ...manifest!, buffer: Buffer.from(rows) }, first!, ...others, { ...first!, name }];
}

/** Strikes T so many times, evenly by the page's own clock, once the take sounds. */
export async function tapAlong(page: Page, taps: number, milliseconds: number): Promise<void> {
  await page.evaluate(
    async ([count, every]) => {
      const told = () => document.querySelector(".tap-told")!.textContent ?? "";
      const strike = () =>
        document.body.dispatchEvent(
          new KeyboardEvent("keydown", { key: "t", bubbles: true, cancelable: true }),
        );
      // Nothing is heard yet while the sound is loading: the first taps are not taken.
      while (told() === "") {
        strike();
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
      const begin = performance.now();
      for (let k = 1; k < count; k++) {
        await new Promise((resolve) => setTimeout(resolve, begin + k * every - performance.now()));
        strike();
      }
    },
    [taps, milliseconds] as const,
  );
}

export interface PageToSee {
  readonly name: string;
  readonly path: string;
  /** Selector that must be there. */
  readonly shows: string;
  /** What a user does first. */
  readonly act?: (page: Page) => Promise<void>;
}

export const PAGES_TO_SEE: readonly PageToSee[] = [
  { name: "takes", path: "/", shows: ".take-link" },
  {
    name: "take-added",
    path: "/",
    shows: ".take-link",
    act: async (page) => {
      await page.setInputFiles("#take-files", [
        { name: "evening.mid", mimeType: "audio/midi", buffer: Buffer.from("MThd") },
      ]);
      await page.waitForSelector(".add-details:not([hidden])");
    },
  },
  {
    name: "take-refused",
    path: "/",
    shows: ".take-link",
    act: async (page) => {
      await page.setInputFiles("#take-files", [
        { name: "letter.mid", mimeType: "audio/midi", buffer: Buffer.from("not music") },
      ]);
      await page.click("button[type=submit]");
      await page.waitForSelector(".refusal");
    },
  },
  {
    name: "take-chart-proposed",
    path: "/",
    shows: ".take-link",
    act: async (page) => {
      await page.setInputFiles("#take-files", join(TAKES, "jonas-quick-change.mid"));
      await page.check('[name="chart-way"][value="own"]');
      await page.waitForSelector(".proposed-bars");
    },
  },
  {
    name: "take-chart-unheard",
    path: "/",
    shows: ".take-link",
    act: async (page) => {
      await page.setInputFiles("#take-files", join(TAKES, "maren-rubato.mid"));
      await page.check('[name="chart-way"][value="own"]');
      await page.waitForSelector(".proposed-bars .doubtful");
    },
  },
  { name: "take", path: "/takes/maren-lantern-yard", shows: ".chorus-page" },
  { name: "take-note", path: "/takes/bram-lantern-yard?note=n40", shows: ".chorus-page" },
  { name: "take-bar", path: "/takes/tilda-lantern-yard?bar=1.4", shows: ".chorus-page" },
  { name: "take-blues", path: "/takes/jonas-pickup?chorus=2", shows: ".chorus-page" },
  {
    name: "take-changing-key",
    path: "/takes/tilda-lantern-yard",
    shows: ".chorus-page",
    act: async (page) => {
      await page.evaluate(async () => {
        const { chart } = await (await fetch("/api/takes/tilda-lantern-yard/analysis")).json();
        const lines = chart.text.trim().split("\n");
        lines.splice(-1, 0, "key: Eb");
        await fetch("/api/takes/tilda-lantern-yard", {
          method: "PATCH",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ chart: lines.join("\n"), options: { chartConfirmed: true } }),
        });
      });
      await page.reload();
      await page.waitForSelector(".new-key");
    },
  },
  { name: "take-rubato", path: "/takes/maren-rubato", shows: ".chorus-page" },
  ...["line", "hand", "ideas", "time", "register"].map((reading) => ({
    name: `take-read-${reading}`,
    path: `/takes/bram-quick-change?reading=${reading}`,
    shows: `svg.chorus-page[data-reading="${reading}"]`,
  })),
  {
    name: "take-all-open",
    path: "/takes/bram-quick-change?note=n40&reading=hand",
    shows: ".chorus-page",
    act: async (page) => {
      await page.waitForSelector(".settings-box");
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll<HTMLDetailsElement>("main details")) fold.open = true;
        for (const line of document.querySelectorAll<HTMLElement>('.unfold[aria-expanded="false"]'))
          line.click();
      });
      await page.waitForSelector(".line-more");
    },
  },
  {
    name: "take-no-such-bar",
    path: "/takes/tilda-week-8?bar=17.1",
    shows: ".reading:has-text('no such bar')",
  },
  {
    name: "take-note-menu",
    path: "/takes/bram-quick-change?note=n40",
    shows: ".correct summary",
    act: (page) => page.click(".correct summary"),
  },
  {
    name: "take-wrong-chord",
    path: "/takes/bram-quick-change?bar=1.5",
    shows: "[name=bar-chords]",
    act: async (page) => {
      await page.fill("[name=bar-chords]", "Hello");
      await page.click(".correct button:has-text('Change')");
      await page.waitForSelector(".correct .hint:has-text('Hello')");
    },
  },
  { name: "compare-no-such-side", path: "/compare?a=nobody&b=tilda-week-1", shows: ".refusal" },
  { name: "no-such-page", path: "/nowhere/at/all", shows: ".refusal" },
  { name: "link-ended", path: "/link-ended", shows: "h1" },
  {
    name: "take-staff",
    path: "/takes/tilda-week-8",
    shows: ".chorus-page",
    act: async (page) => {
      await page.click("text=Engrave the staff");
      await page.waitForSelector(".engraved g.note", { timeout: 30_000 });
    },
  },
  {
    name: "take-tapped",
    path: "/takes/tilda-week-8?bar=1.2",
    shows: ".chorus-page",
    act: async (page) => {
      await page.click(".glance > summary");
      await page.click("summary:has-text('Tap the beat')");
      await page.click("text=Play and tap");
      await page.waitForSelector(".tap-pad:enabled", { timeout: 30_000 });
      await tapAlong(page, 9, 577);
      await page.click(".tap-row >> text=Stop");
      await page.waitForSelector(".tap-after:not([hidden])");
    },
  },
  { name: "findings", path: "/takes/bram-quick-change/findings", shows: ".finding" },
  { name: "compare-choose", path: "/compare", shows: ".sides" },
  {
    name: "compare",
    path: "/compare?a=tilda-week-1&b=tilda-week-8",
    shows: ".view-measures-compared .plot svg",
  },
  {
    name: "compare-row",
    path: "/compare?sides=tilda-week-1,tilda-week-4,tilda-week-8,maren-quick-change",
    shows: ".view-measures-many .plot svg",
  },
  {
    name: "compare-choruses",
    path: "/compare?sides=maren-quick-change%3A1,maren-quick-change%3A2,maren-quick-change%3A3",
    shows: ".view-measures-many .plot svg",
  },
  {
    name: "findings-goal",
    path: "/takes/tilda-week-4/findings",
    shows: ".kind-goals",
    act: async (page) => {
      await page.click("text=Set a goal");
      await page.selectOption('[name="goal-chord"]', { index: 2 });
      await page.click("text=Set the goal");
      await page.waitForSelector(".kind-goals .finding");
    },
  },
  {
    name: "findings-waiting",
    path: "/takes/jonas-minor-blues/findings",
    shows: ".own-view",
    act: async (page) => {
      if (!(await page.isChecked('[name="ask-first"]'))) await page.check('[name="ask-first"]');
      await page.waitForSelector("text=The findings are shown when the player has written.");
    },
  },
  {
    name: "share",
    path: "/takes/tilda-week-8",
    shows: ".share-panel",
    act: async (page) => {
      await page.click(".share-panel summary");
      await page.fill('[name="share-name"]', "For the lesson");
      await page.click("text=Make a link");
      await page.waitForSelector(".share-address");
    },
  },
  { name: "read", path: "/read/tilda-week-8", shows: ".lesson .finding" },
  {
    name: "practice-one",
    path: "/takes/tilda-week-8/practice?exercise=slides-missed",
    shows: ".exercise .engraved",
  },
  {
    name: "shapes",
    path: "/shapes",
    shows: ".shape-card",
    act: async (page) => {
      for (const pitch of [60, 63, 66])
        await page.dispatchEvent(`.press-keys [data-pitch="${pitch}"]`, "click");
    },
  },
  { name: "progress", path: "/players/tilda", shows: ".progress" },
  {
    name: "player-lens",
    path: "/players/jonas",
    shows: ".player-lens",
    act: async (page) => {
      await page.selectOption("[name=lens]", "rests-and-answers");
      await page.fill("[name=since]", "2026-09-01");
      await page.click(".player-lens button.main");
      await page.waitForSelector("text=The lens is set");
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll<HTMLDetailsElement>(".player-fold")) fold.open = true;
      });
      await page.click(".player-fold button:has-text('Delete Jonas')");
      await page.waitForSelector(".confirmation");
    },
  },
  {
    name: "findings-lens",
    path: "/takes/jonas-pickup/findings",
    shows: ".findings",
    act: async (page) => {
      await page.evaluate(() =>
        fetch("/api/players/jonas/lens", {
          method: "PUT",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ lens: "blue-third", since: "2026-09-01" }),
        }),
      );
      await page.reload();
      await page.waitForSelector(".lens-panel");
    },
  },
  { name: "lenses", path: "/lenses", shows: ".lens-maker" },
  { name: "term-report", path: "/players/tilda/report", shows: ".report-table" },
  { name: "practice", path: "/takes/tilda-week-8/practice", shows: ".exercise .engraved" },
  {
    name: "take-settings",
    path: "/takes/tilda-week-8",
    shows: ".settings-box",
    act: async (page) => {
      await page.click(".settings-box > summary");
      await page.check('.hand-choice input[value="third-and-steps"]');
    },
  },
  { name: "take-motif", path: "/takes/maren-lantern-yard?motif=m1", shows: ".find-again .keep-idea" },
  {
    name: "take-added-hand",
    path: "/",
    shows: ".take-link",
    act: async (page) => {
      await page.setInputFiles("#take-files", [
        { name: "evening.mid", mimeType: "audio/midi", buffer: Buffer.from("MThd") },
      ]);
      await page.click(".hand-slot > summary");
      await page.waitForSelector(".hand-slot .shape-choice");
    },
  },
  {
    name: "search",
    path: "/search",
    shows: ".pattern-input .press-keys",
    act: async (page) => {
      await page.selectOption('.search-form [name="viewpoint"]', "interval and rhythm");
      for (const pitch of [60, 63, 65])
        await page.dispatchEvent(`.press-keys [data-pitch="${pitch}"]`, "click");
      await page.waitForSelector(".played-notes select");
    },
  },
  {
    name: "search-found",
    path: "/search?viewpoint=chromatic+interval&symbols=-1+-2+-2+2&edits=1",
    shows: ".hits .hit",
  },
  {
    name: "search-nowhere",
    path: "/search?viewpoint=finger&symbols=5+5+5+5+5",
    shows: ".search-result .empty",
  },
  { name: "ideas-none", path: "/ideas", shows: ".idea-list .empty" },
  {
    name: "ideas",
    path: "/ideas",
    shows: ".idea-list",
    act: async (page) => {
      await page.evaluate(async () => {
        for (const [name, viewpoint, symbols] of [
          ["Falling to the third", "chromatic interval", [-1, -2, -2]],
          ["Long, short, short", "rhythm", ["1 beat", "0.5 beats", "0.5 beats"]],
          ["Up from the fifth by fingers", "finger", [1, 2, 3, 4]],
        ]) {
          await fetch("/api/ideas", {
            method: "POST",
            headers: { "content-type": "application/json" },
            body: JSON.stringify({ name, pattern: { viewpoint, symbols } }),
          });
        }
      });
      await page.reload();
      await page.waitForSelector(".idea");
    },
  },
  { name: "placements", path: "/placements", shows: ".map-placement" },
  {
    name: "lesson",
    path: "/lesson?form=blues-basic&key=F&level=intermediate&lens=guide-tones",
    shows: ".exercise-staff svg",
    act: async (page) => {
      await page.waitForSelector('.exercise:last-of-type .exercise-staff svg, [data-exercise="4"] svg');
    },
  },
  { name: "student", path: "/students/tilda", shows: ".student-takes a" },
  { name: "student-take", path: "/students/tilda/takes/tilda-week-1", shows: ".own-view textarea" },
  {
    name: "student-sheet",
    path: "/students/tilda/takes/tilda-week-8/practice",
    shows: ".exercise .engraved",
  },
  { name: "record", path: "/record", shows: ".record-keys" },
  {
    name: "recording",
    path: "/record",
    shows: ".record-keys",
    act: async (page) => {
      await page.click("button.main");
      await page.waitForSelector(".finger-spot");
      await page.keyboard.down("a");
    },
  },
  {
    name: "access",
    path: "/access",
    shows: ".token-maker",
    act: async (page) => {
      await page.evaluate(async () => {
        const post = (path: string, body: unknown) =>
          fetch(`/api${path}`, {
            method: "POST",
            headers: { "content-type": "application/json" },
            body: JSON.stringify(body),
          }).then((answer) => answer.json());
        const teacher = { role: "teacher", scope: ["tilda", "jonas"], mostTakes: 200 };
        await post("/tokens", { ...teacher, name: "Teacher on Tuesdays", days: 365 });
        await post("/tokens", { name: "Head of the school", role: "owner", scope: [] });
        await post("/takes/tilda-week-8/shares", { name: "For the lesson", days: 31 });
        await post("/players/tilda/shares", { name: "Tilda at home" });
        const { id } = await post("/tokens", { ...teacher, name: "Teacher of last year" });
        await fetch(`/api/tokens/${id}`, { method: "DELETE" });
      });
      await page.reload();
      await page.waitForSelector(".token-list li");
      await page.click(".token-list li:has-text('Teacher on Tuesdays') >> text=Change what it reaches");
      await page.selectOption("[name=seen-player]", "tilda");
      await page.waitForSelector(".reach-list li");
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll<HTMLDetailsElement>("main details")) fold.open = true;
      });
      await page.fill("[name=token-name]", "Study group");
      await page.selectOption("[name=token-role]", "monitor");
      await page.click("text=Make the token");
      await page.waitForSelector(".share-address");
    },
  },
  { name: "audit", path: "/audit", shows: ".audit-table tbody tr" },
  { name: "corpora", path: "/corpora", shows: "h1" },
  {
    name: "corpus-empty",
    path: "/corpora",
    shows: "h1",
    act: async (page) => {
      await page.fill('[name="corpus-name"]', "Spring term");
      await page.click("button.main");
      await page.waitForSelector("text=No take has been analysed yet");
    },
  },
  {
    name: "corpus",
    path: "/corpora",
    shows: "h1",
    act: async (page) => {
      await page.fill('[name="corpus-name"]', "Evening class");
      await page.click("button.main");
      await page.waitForSelector("#corpus-files", { state: "attached" });
      await page.setInputFiles("#corpus-files", withOneAgain(classFiles()));
      await page.selectOption('[name="form"]', { index: 1 });
      await page.click("form button.main:has-text('Send')");
      await page.waitForSelector("text=/analysed, one was left out/", { timeout: 60_000 });
      await page.click("summary:has-text('left out')");
      await page.waitForSelector(".corpus-spreads .take-tick", { state: "attached" });
      await page.selectOption('[name="take"]', { index: 1 });
      await page.fill('[name="symbols"]', "-1 -2");
      await page.click("button:has-text('Search')");
      await page.waitForSelector(".corpus-hits .hit-mark");
    },
  },
  { name: "no-such-take", path: "/takes/nobody", shows: ".refusal" },
  {
    name: "keys",
    path: "/takes/tilda-week-8",
    shows: ".chorus-page",
    act: async (page) => {
      await page.keyboard.press("?");
      await page.waitForSelector("dialog[open] h2");
    },
  },
  {
    name: "sound-refused",
    path: "/",
    shows: ".take-link",
    act: async (page) => {
      // Two seconds of silence.
      const buffer = Buffer.from(wave(new Float32Array(32_000)));
      await page.setInputFiles("#take-files", [{ name: "phone.wav", mimeType: "audio/wav", buffer }]);
      await page.waitForSelector(".sound-queue .refusal-file");
    },
  },
  {
    name: "take-put-right",
    path: "/takes/tilda-week-1?note=n5",
    shows: ".correct summary",
    act: async (page) => {
      await page.evaluate(async () => {
        const { notes } = await (await fetch("/api/takes/tilda-week-1/analysis")).json();
        const solo = notes.filter((note: { solo: boolean }) => note.solo);
        const correct = [
          { note: solo[5].source, hand: "left" },
          { note: solo[9].source, pitch: solo[9].pitch + 1 },
          { note: solo[15].source, meant: false },
        ];
        await fetch("/api/takes/tilda-week-1", {
          method: "PATCH",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ correct }),
        });
      });
      await page.reload();
      await page.click("summary:has-text('Put right:')");
      await page.waitForSelector(".correct li");
    },
  },
  {
    name: "take-heard",
    path: "/takes/bram-quick-change",
    shows: ".chorus-page",
    act: async (page) => {
      // What stands in one take once more as if it had been heard, every seventh note unsurely.
      const id = await page.evaluate(async () => {
        const { notes, chart } = await (await fetch("/api/takes/bram-quick-change/analysis")).json();
        type Played = { pitch: number; onset: number; duration: number; velocity: number };
        const heard = notes.map(({ pitch, onset, duration, velocity }: Played, i: number) => ({
          ...{ pitch, onset, end: onset + duration, velocity },
          ...{ certainty: i % 7 === 3 ? 0.6 : 0.97, doubt: i % 14 === 3 ? "octave ghost" : null },
        }));
        const document = { heard: "piano", version: 1, seconds: 60, notes: heard, pedal: [], company: null };
        const body = new FormData();
        body.append("file", new Blob([JSON.stringify(document)]), "phone.json");
        body.append("chart", chart.text);
        body.append("title", "From a telephone");
        return (await (await fetch("/api/takes", { method: "POST", body })).json()).take.id;
      });
      await page.evaluate((take) => location.assign(`#/takes/${take}`), id);
      await page.waitForSelector(".take-head h1:has-text('From a telephone')");
      await page.waitForSelector(".unsure-ring");
    },
  },
  {
    name: "take-hand-asked",
    path: "/takes/bram-quick-change",
    shows: ".chorus-page",
    act: async (page) => {
      // The line of one take two octaves lower, alone: in the left hand's half of the keyboard.
      const id = await page.evaluate(async () => {
        const { notes, chart } = await (await fetch("/api/takes/bram-quick-change/analysis")).json();
        type Played = { pitch: number; onset: number; duration: number; velocity: number; solo: boolean };
        const heard = notes
          .filter(({ solo }: Played) => solo)
          .map(({ pitch, onset, duration, velocity }: Played) => ({
            ...{ pitch: pitch - 24, onset, end: onset + duration, velocity },
            ...{ certainty: 1, doubt: null },
          }));
        const document = { heard: "piano", version: 1, seconds: 60, notes: heard, pedal: [], company: null };
        const body = new FormData();
        body.append("file", new Blob([JSON.stringify(document)]), "low.json");
        body.append("chart", chart.text);
        body.append("title", "A low line");
        return (await (await fetch("/api/takes", { method: "POST", body })).json()).take.id;
      });
      await page.evaluate((take) => location.assign(`#/takes/${take}`), id);
      await page.waitForSelector(".take-question:has-text('Which hand plays the solo?')");
    },
  },
  {
    name: "practice-your-turn",
    path: "/takes/tilda-week-8/practice",
    shows: ".exercise .engraved",
    act: async (page) => {
      await page.click(".exercise summary:has-text('The same as a table') >> nth=0");
      await page.click(".exercise button:has-text('Your turn') >> nth=0");
      await page.waitForSelector(".exercise .record-keys");
    },
  },
];

/** Opens the page and lets all of it be drawn. */
export async function seePage(page: Page, origin: string, view: PageToSee): Promise<void> {
  await page.goto(`${origin}/#${view.path}`);
  await page.waitForSelector(view.shows);
  await view.act?.(page);
  await page.evaluate(async () => {
    for (let y = 0; y < document.body.scrollHeight; y += 800) {
      window.scrollTo(0, y);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    window.scrollTo(0, 0);
    await document.fonts.ready;
    await new Promise((resolve) => setTimeout(resolve, 80));
  });
}
