/** Lessons without a take: from their address, handed out, answered by a take; and who may. */

import tonejsMidi from "@tonejs/midi";
import { unzipSync } from "fflate";
import { parse as parseMusicXml } from "musicxml-io";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, json, post } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

const player = async (name: string): Promise<string> => (await post("/players", { name })).id;
const handOut = (players: readonly string[], more: object = {}) =>
  post("/lessons", { form: "blues-basic", key: "F", handedOn: "2026-10-01", players, ...more });
const waiting = async (id: string) => (await json(`/players/${id}/lessons`)).lessons;

describe("a lesson without a take", () => {
  it("is a sheet from its address alone, in the key that is asked for", async () => {
    const at = "/lesson?form=blues-basic&key=F&lens=guide-tones&shape=third-and-steps";
    const lesson = await json(at);
    expect(lesson.lens.id).toBe("guide-tones");
    expect(lesson.chart.key).toBe("F");
    expect((await json(`${at}&inKey=Eb`)).exercises.every((one: { key: string }) => one.key === "Eb")).toBe(
      true,
    );
    // A minor form keeps its mode, whichever way its new key is written.
    for (const inKey of ["A", "Am"])
      expect((await json(`/lesson?form=blues-minor&key=Cm&inKey=${inKey}`)).chart.key).toBe("Am");
  });

  it("comes as notation and as MIDI, exercise by exercise", async () => {
    const query = "form=blues-basic&key=F&level=beginner";
    const { exercises } = await json(`/lesson?${query}`);
    for (const { id, bars, kind } of exercises) {
      const xml = await (await call(`/lesson/${id}/score.musicxml?${query}`)).text();
      expect(parseMusicXml(xml).parts[0]!.measures, kind).toHaveLength(bars.length);
      const bytes = await (await call(`/lesson/${id}/play-along.mid?${query}&tempo=100`)).arrayBuffer();
      const midi = new tonejsMidi.Midi(bytes);
      expect(midi.header.tempos[0]!.bpm).toBeCloseTo(100, 1);
      expect(
        midi.tracks.some(({ notes }) => notes.length > 0),
        kind,
      ).toBe(true);
    }
    expect((await call(`/lesson/99/score.musicxml?${query}`)).status).toBe(404);
  });

  it("comes whole as one score and as one MIDI file", async () => {
    const query = "form=blues-basic&key=F&level=beginner";
    const { exercises } = await json(`/lesson?${query}`);
    const bars = exercises.reduce((sum: number, one: { bars: unknown[] }) => sum + one.bars.length, 0);
    const xml = await (await call(`/lesson/whole.musicxml?${query}`)).text();
    expect(parseMusicXml(xml).parts[0]!.measures).toHaveLength(bars);
    for (const { title } of exercises) expect(xml).toContain(title);
    const bytes = await (
      await call(`/lesson/whole.mid?${query}&tempo=100&countIn=1&click=every%20beat`)
    ).arrayBuffer();
    const midi = new tonejsMidi.Midi(bytes);
    // Four clicks in each bar, and in the bar that counts each exercise in.
    const clicks = midi.tracks.find(({ name }) => name === "Click")!.notes;
    expect(clicks).toHaveLength(4 * (bars + exercises.length));
    expect(midi.tracks.filter(({ name }) => name === "Right hand")).toHaveLength(1);
  });

  it("says what is wrong with what is asked for", async () => {
    const refused = async (query: string) => {
      const answer = await call(`/lesson?${query}`);
      const { code } = await answer.json();
      return [answer.status, code];
    };
    expect(await refused("level=beginner")).toEqual([400, "chart-missing"]);
    expect(await refused("form=blues-basic&key=F&lens=none")).toEqual([404, "not-found"]);
    expect(await refused("form=blues-basic&key=F&shape=claw")).toEqual([422, "unknown-shape"]);
    expect(await refused("form=blues-basic&key=F&inKey=H")).toEqual([422, "not-a-key"]);
    expect((await refused("form=blues-basic&key=F&level=master"))[0]).toBe(400);
  });
});

describe("a lesson that is handed out", () => {
  it("waits for each player until a take on its chords answers it, in whatever key", async () => {
    const [ida, ole] = [await player("Ida"), await player("Ole")];
    const { lessons } = await handOut([ida, ole, ida], { chart: FOUR_BARS, form: undefined });
    expect(lessons.map((one: { player: string }) => one.player)).toEqual([ida, ole]);
    const send = async (chart: string, title: string, up = 0) =>
      (
        await json("/takes", {
          method: "POST",
          body: takeForm({ chart, playerId: ida, title }, smallMidi(ARPEGGIOS.map((pitch) => pitch + up))),
        })
      ).take.id as string;
    await send("key: F\nidiom: blues\n| F7 | F7 | C7 | F7 |", "Other chords");
    expect((await waiting(ida))[0].answer).toBeNull();
    const answer = await send("key: G\nidiom: blues\n| G7 | C7 | D7 | G7 |", "In G", 2);
    await send(FOUR_BARS, "Later");
    expect((await waiting(ida))[0].answer).toEqual({ take: answer, title: "In G", date: null });
    expect((await waiting(ole))[0].answer).toBeNull();
    await call(`/takes/${answer}`, { method: "DELETE" });
    expect((await waiting(ida))[0].answer.title).toBe("Later");
  });

  it("is not answered by what was played before it", async () => {
    const una = await player("Una");
    const form = takeForm({ chart: FOUR_BARS, playerId: una }, smallMidi(ARPEGGIOS));
    await json("/takes", { method: "POST", body: form });
    await handOut([una], { chart: FOUR_BARS, form: undefined });
    expect((await waiting(una))[0].answer).toBeNull();
  });

  it("keeps what it was made of, whatever becomes of a lens of one's own", async () => {
    const id = await player("Wim");
    const { lens } = (await json(`/lesson?form=blues-basic&key=F&lens=register`)) as { lens: { id: string } };
    const own = {
      ...{
        id: "x",
        name: "Low and high",
        about: "High, then low.",
        said: { reached: "Yes.", partly: "Some.", notYet: "No." },
      },
      ...{ asks: [{ measure: "range", least: 12, partly: 7 }], exercises: [] },
    };
    const made = await post("/lenses", { name: "Low and high", lens: own });
    const { lessons } = await handOut([id], { lens: made.id });
    await call(`/lenses/${made.id}`, { method: "DELETE" });
    const at = `/players/${id}/lessons/${lessons[0].id}`;
    expect((await json(at)).lens.name).toBe("Low and high");
    expect((await json(`${at}?inKey=B`)).chart.key).toBe("B");
    const { exercises } = await json(at);
    expect((await call(`${at}/${exercises[0].id}/score.musicxml`)).status).toBe(200);
    expect((await call(`${at}/${exercises[0].id}/play-along.mid?inKey=A`)).status).toBe(200);
    expect(lens.id).toBe("register");
  });

  it("goes with the player: in the export, in a merge, and when it is taken back", async () => {
    const [from, into] = [await player("Rike"), await player("Rieke")];
    const { lessons } = await handOut([from]);
    const zip = unzipSync(new Uint8Array(await (await call(`/players/${from}/export.zip`)).arrayBuffer()));
    expect(new TextDecoder().decode(zip["lessons.json"])).toContain(lessons[0].id);
    await call(`/players/${from}/merge`, sent("POST", { into }));
    expect((await waiting(into)).map((one: { id: string }) => one.id)).toEqual([lessons[0].id]);
    expect((await call(`/players/${into}/lessons/${lessons[0].id}`, { method: "DELETE" })).status).toBe(204);
    expect(await waiting(into)).toEqual([]);
    expect((await call(`/players/${into}/lessons/${lessons[0].id}`)).status).toBe(404);
  });

  it("is handed out to all or to none", async () => {
    const id = await player("Bo");
    const answer = await call(
      "/lessons",
      sent("POST", { form: "blues-basic", key: "F", handedOn: "2026-10-01", players: [id, "nobody"] }),
    );
    expect(answer.status).toBe(404);
    expect(await waiting(id)).toEqual([]);
  });
});
