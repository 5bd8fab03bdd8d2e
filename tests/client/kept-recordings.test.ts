import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { describe, expect, it } from "vitest";
import { type KeptRecording, keeping, keptRecordings } from "../../client/record/kept-recordings.ts";
import type { RecordingSettings } from "../../client/record/record-states.ts";
import { createRecording } from "../../client/record/recording.ts";
import { beginUnderWay } from "../../client/record/under-way.ts";

const settings: RecordingSettings = {
  chart: { chart: "| F7 | Bb7 |" },
  quartersPerMinute: 240,
  countInBars: 1,
  meter: { beats: 4, unit: 4 },
  hand: {},
  player: "",
  title: "By keys",
  keepSound: false,
};
const unkept = (error: unknown) => {
  throw error;
};
const written = () => new Promise((resolve) => setTimeout(resolve, 400));

describe("a recording in the browser's own store", () => {
  it("is there from the first note, without being stopped, for a page that is opened anew", async () => {
    const factory = new IDBFactory();
    let clock = 0.5;
    const one = beginUnderWay(keptRecordings(factory), settings, () => clock, unkept);
    one.pedal(true, 0.2);
    await written();
    expect(await keptRecordings(factory).list()).toEqual([]);
    one.press(65, 80, 0.5);
    clock = 1;
    one.press(65, 0, 0.9);
    one.press(69, 70, 1);
    await written();
    const [kept, ...others] = await keptRecordings(factory).list();
    expect(others).toEqual([]);
    expect(kept).toMatchObject({ settings, refused: null, seconds: 1 });
    expect(kept!.notes).toEqual([
      { pitch: 65, velocity: 80, onset: 0.5, release: 0.9 },
      // Held when the page went: it ends where the recording does.
      { pitch: 69, velocity: 70, onset: 1, release: 1.02 },
    ]);
    expect(kept!.pedal).toEqual([{ down: true, seconds: 0.2 }]);
  });

  it("takes names that were written later, never another tempo or chart", async () => {
    const factory = new IDBFactory();
    const store = keptRecordings(factory);
    const one = beginUnderWay(store, settings, () => 2, unkept);
    one.press(60, 80, 1);
    one.stopAt(2);
    await one.finish({ player: "Ada", title: "Named after", keepSound: false });
    const [kept] = await store.list();
    expect(kept!.settings).toEqual({ ...settings, player: "Ada", title: "Named after" });
    expect(kept).toEqual(one.recording());
  });

  it("joins what a microphone heard in its order, and deletes both together", async () => {
    const store = keptRecordings(new IDBFactory());
    const one = beginUnderWay(store, settings, () => 2, unkept);
    const type = "audio/webm;codecs=opus";
    for (const text of ["first ", "second ", "third"]) one.sound(new Blob([text], { type }));
    one.stopAt(2);
    await one.finish({ player: "", title: "", keepSound: true });
    const { id } = one.recording();
    const sound = await store.sound(id);
    expect(sound!.name).toBe("recording.webm");
    expect(await sound!.text()).toBe("first second third");
    await store.remove(id);
    expect(await store.list()).toEqual([]);
    expect(await store.sound(id)).toBeNull();
  });

  it("lists the newest first", async () => {
    const store = keptRecordings(new IDBFactory());
    const at = (startedAt: number): KeptRecording => ({
      id: String(startedAt),
      settings,
      startedAt,
      date: "2026-03-04",
      seconds: 1,
      notes: [],
      pedal: [],
      refused: null,
    });
    for (const time of [2, 3, 1]) await store.put(at(time));
    expect((await store.list()).map(({ startedAt }) => startedAt)).toEqual([3, 2, 1]);
  });

  it("is reported when the browser has no store, while the recording goes on", async () => {
    const troubles: string[] = [];
    const none = keptRecordings(null as unknown as IDBFactory);
    const writer = keeping(
      none,
      () => {
        throw new Error("not reached without a store");
      },
      (error) => troubles.push((error as Error).message),
    );
    await writer.now();
    expect(troubles).toHaveLength(1);
  });
});

describe("a keyboard that is unplugged", () => {
  it("leaves no key down and no pedal", () => {
    const recording = createRecording();
    recording.pedal(true, 0.5);
    recording.press(60, 80, 1);
    recording.letGo(1.5);
    recording.press(62, 80, 3);
    recording.press(62, 0, 3.5);
    expect(recording.finish(4)).toEqual({
      notes: [
        { pitch: 60, velocity: 80, onset: 1, release: 1.5 },
        { pitch: 62, velocity: 80, onset: 3, release: 3.5 },
      ],
      pedal: [
        { down: true, seconds: 0.5 },
        { down: false, seconds: 1.5 },
      ],
    });
  });
});
