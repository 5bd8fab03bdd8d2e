import { describe, expect, it } from "vitest";
import {
  isPlaying,
  lostWords,
  nextState,
  type RecordEvent,
  type RecordingSettings,
  type RecordState,
} from "../../client/record/record-states.ts";
import { localDate } from "../../client/shell/words.ts";

const settings: RecordingSettings = {
  chart: { form: "blues", key: "F" },
  quartersPerMinute: 240,
  countInBars: 1,
  meter: { beats: 4, unit: 4 },
  hand: {},
  player: "",
  title: "",
  keepSound: false,
};
const through = (...events: RecordEvent[]): RecordState =>
  events.reduce<RecordState>(nextState, { name: "idle" });
const begin: RecordEvent = { kind: "begin", settings };
const stop: RecordEvent = { kind: "stop", sound: false };

describe("what the record page does", () => {
  it("goes from the count-in over playing and sending to a take", () => {
    const names = [
      begin,
      { kind: "bar one" },
      { kind: "note" },
      stop,
      { kind: "send" },
      { kind: "sent", take: "a" },
    ].map((_, i, all) => through(...(all.slice(0, i + 1) as RecordEvent[])).name);
    expect(names).toEqual(["counting in", "recording", "recording", "stopped unsent", "sending", "sent"]);
  });

  it("holds what was set at the start, through a second start while playing and through a refusal", () => {
    const other = { ...settings, quartersPerMinute: 120 };
    const refused = through(
      begin,
      { kind: "note" },
      { kind: "begin", settings: other },
      stop,
      { kind: "send" },
      { kind: "refused", why: "A typo." },
    );
    expect(refused).toEqual({ name: "refused", settings, why: "A typo." });
    expect(nextState(refused, { kind: "send" })).toEqual({ name: "sending", settings });
  });

  it("has nothing to send where nothing was played, but has where a microphone recorded", () => {
    expect(through(begin, stop).name).toBe("idle");
    expect(through(begin, { kind: "stop", sound: true }).name).toBe("stopped unsent");
    expect(through(begin, { kind: "note" }, stop).name).toBe("stopped unsent");
  });

  it("says which keyboards are gone until they are back, and only while somebody plays", () => {
    const gone: RecordEvent = { kind: "keyboards", lost: ["Stage piano"], there: [] };
    const lost = through(begin, { kind: "note" }, gone);
    expect(isPlaying(lost)).toBe(true);
    expect(lostWords(lost)).toContain("“Stage piano” is no longer connected");
    const back = nextState(lost, { kind: "keyboards", lost: [], there: ["Stage piano"] });
    expect(lostWords(back)).toBeNull();
    expect(lostWords(through(gone))).toBeNull();
    expect(lostWords(nextState(lost, stop))).toBeNull();
  });

  it("loses nothing by an event that does not belong to the state", () => {
    const events: RecordEvent[] = [
      begin,
      { kind: "bar one" },
      { kind: "note" },
      { kind: "sent", take: "a" },
      { kind: "refused", why: "" },
      { kind: "discard" },
      { kind: "send" },
    ];
    const playing = through(begin, { kind: "note" });
    for (const event of events) expect(isPlaying(nextState(playing, event))).toBe(true);
    const sending = through(begin, { kind: "note" }, stop, { kind: "send" });
    for (const event of [begin, stop, { kind: "discard" } as const])
      expect(nextState(sending, event)).toBe(sending);
  });

  // The Date methods without UTC in their names give local time: ECMAScript, 21.4.4.
  it("dates by the day where it is played", () => {
    expect(localDate(new Date(2026, 2, 4, 0, 30))).toBe("2026-03-04");
    expect(localDate(new Date(2026, 11, 31, 23, 59))).toBe("2026-12-31");
  });
});
