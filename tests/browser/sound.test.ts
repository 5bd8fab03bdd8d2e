/** Recordings of sound on the pages: dropped, and by the microphone. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { piano, wave } from "../listen/sounds.ts";
import { ARPEGGIOS, FOUR_BARS } from "../server/harness.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const NETWORK = fileURLToPath(new URL("../../src/listen/network/piano.onnx", import.meta.url));

describe.skipIf(!hasChromium)("sound in a browser", () => {
  const stage = staged();

  const drop = (name: string, sound: Float32Array) => ({
    name,
    mimeType: "audio/wav",
    buffer: Buffer.from(wave(sound)),
  });

  test("a silent recording is refused in words, beside the other files", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/`);
    await page.setInputFiles("#take-files", drop("phone.wav", new Float32Array(32_000)));
    await page.waitForSelector(".sound-queue .refusal-file");
    expect(await page.textContent(".sound-queue .trouble")).toContain("The recording is silent");
    expect(await page.locator(".sound-queue li").count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a microphone that is not allowed is said so, and what to do instead", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.addInitScript(() => {
      // As the Media Capture specification (W3C) names a refusal.
      Object.defineProperty(navigator, "mediaDevices", {
        value: {
          getUserMedia: async () => {
            throw new DOMException("Permission denied", "NotAllowedError");
          },
        },
      });
    });
    await page.goto(`${stage.url}/#/record`);
    await page.click("text=Use the microphone");
    await page.waitForSelector("text=was not allowed to use the microphone");
    await context.close();
  });

  test.skipIf(!existsSync(NETWORK))(
    "a recording is listened to, analysed and kept beside its notes",
    { timeout: 240_000 },
    async () => {
      const { page, context, trouble } = await openPage(stage.browser, stage.url);
      await page.goto(`${stage.url}/#/`);
      const notes = ARPEGGIOS.map((pitch, i) => ({ pitch, onset: 0.5 + i / 2, end: 0.95 + i / 2 }));
      await page.setInputFiles("#take-files", drop("phone.wav", piano(notes, 9)));
      await page.waitForSelector(".chosen .file-name:has-text('phone.wav')");
      // Shown once all is heard: a second or two, and a minute on a busy machine.
      await page.locator("[name=keep-sound]").waitFor({ timeout: 120_000 });
      await page.check("[name=keep-sound]");
      await page.check("[name=chart-way][value=text]");
      await page.fill("[name=chart-text]", FOUR_BARS);
      await page.click("button:has-text('Analyse')");
      await page.waitForSelector(".kept-sound audio", { timeout: 120_000 });
      expect(await page.textContent(".warnings")).toContain("heard in a recording");
      expect(trouble).toEqual([]);
      await context.close();
    },
  );

  test.skipIf(!existsSync(NETWORK))(
    "the microphone's recording becomes a take",
    { timeout: 240_000 },
    async () => {
      const { page, context } = await openPage(stage.browser, stage.url);
      // A microphone before which the arpeggios are played, by the Web Audio and Media Capture specifications (W3C).
      const sound = Array.from(
        wave(
          piano(
            ARPEGGIOS.map((pitch, i) => ({ pitch, onset: 0.5 + i / 2, end: 0.95 + i / 2 })),
            9,
          ),
        ),
      );
      await page.addInitScript((bytes: readonly number[]) => {
        Object.defineProperty(navigator, "mediaDevices", {
          value: {
            getUserMedia: async () => {
              const room = new AudioContext();
              await room.resume();
              const source = room.createBufferSource();
              source.buffer = await room.decodeAudioData(Uint8Array.from(bytes).buffer);
              source.loop = true;
              const wire = room.createMediaStreamDestination();
              source.connect(wire);
              source.start();
              return wire.stream;
            },
          },
        });
      }, sound);
      await page.goto(`${stage.url}/#/record`);
      await page.check("[name=chart-way][value=text]");
      await page.fill("[name=chart-text]", FOUR_BARS);
      await page.uncheck("label:has-text('walking bass') input");
      await page.click("text=Use the microphone");
      await page.waitForSelector("meter");
      await page.click("button.main");
      await page.waitForSelector(".now-playing:has-text('bar 3')");
      await page.click("button:has-text('Stop and analyse')");
      await page.waitForSelector("text=Heard in a recording, which was not kept.", { timeout: 120_000 });
      await context.close();
    },
  );
});
