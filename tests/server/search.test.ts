/** Patterns, ideas and shapes through the API. ARPEGGIOS: F A C Eb, Bb D F Ab, C E G Bb (rising), F Eb C A (falling). */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { type Analysis, MOTIF_VIEWPOINTS } from "../../src/account.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
let take: string;
let analysis: Analysis;
const json = async (path: string, method = "GET", body?: unknown) => {
  const response = await fetch(`${server.url}/api${path}`, {
    method,
    ...(body === undefined
      ? {}
      : { headers: { "content-type": "application/json" }, body: JSON.stringify(body) }),
  });
  return response.status === 204 ? null : response.json();
};
const post = async (fields: Record<string, string>, pitches: readonly number[]) =>
  (
    await fetch(`${server.url}/api/takes`, {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS, ...fields }, smallMidi(pitches)),
    })
  ).json();

beforeAll(async () => {
  server = await serve();
  const answer = await post({ title: "Arpeggios" }, ARPEGGIOS);
  take = answer.take.id;
  analysis = answer.analysis;
});
afterAll(() => server.close());

describe("a search in one take", () => {
  it.each(MOTIF_VIEWPOINTS)("finds picked notes again where they were picked: %s", async (viewpoint) => {
    const picked = analysis.notes.slice(4, 8);
    const notes = picked.map(({ pitch, position, degree, finger }) => ({ pitch, position, degree, finger }));
    const { hits, titles, pattern } = await json("/search", "POST", { viewpoint, notes, take });
    expect(pattern).toMatchObject({ viewpoint, notes: 4 });
    expect(titles).toEqual({ [take]: "Arpeggios" });
    expect(hits.map((hit: { firstNote: string }) => hit.firstNote)).toContain(picked[0]!.id);
    const own = hits.find((hit: { firstNote: string }) => hit.firstNote === picked[0]!.id);
    expect(own).toMatchObject({
      lastNote: picked[3]!.id,
      edits: 0,
      before: ARPEGGIOS.slice(0, 4),
      pitches: ARPEGGIOS.slice(4, 8),
      after: ARPEGGIOS.slice(8, 12),
    });
    // Quarter notes at 120 a minute: half a second each.
    expect(own.ids).toEqual(analysis.notes.slice(0, 12).map((note) => note.id));
    expect(own.spellings).toEqual(analysis.notes.slice(0, 12).map((note) => note.spelling));
    expect(own.onsets).toEqual([-2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]);
  });

  it("hears the same chord at three pitches, and the nearly same one after it", async () => {
    // A dominant seventh upwards: 4 + 3 + 3 semitones, on F, Bb and C.
    const exact = await json("/search", "POST", { symbols: [4, 3, 3], take });
    expect(exact.hits.map((hit: { pitch: number }) => hit.pitch)).toEqual([65, 70, 72]);
    // With a minor third in place of the major one, one note differs.
    const near = await json("/search", "POST", { symbols: [3, 4, 3], maxEdits: 1, take });
    expect(near.hits.map((hit: { edits: number }) => hit.edits)).toEqual([1, 1, 1]);
  });

  it("says what a viewpoint lacks when notes are played without it", async () => {
    const problem = await json("/search", "POST", { viewpoint: "degree", notes: [{ pitch: 60 }] });
    expect(problem).toMatchObject({ code: "pattern-incomplete" });
    expect(problem.detail).toContain("degree");
  });
});

describe("an idea", () => {
  it("is named, kept, renamed, found again in another take, deleted and brought back", async () => {
    const { id } = await json("/ideas", "POST", {
      name: "dominant seventh up",
      pattern: { viewpoint: "chromatic interval", symbols: [4, 3, 3] },
    });
    await json(`/ideas/${id}`, "PATCH", { name: "four up" });
    const { ideas } = await json("/ideas");
    expect(ideas).toEqual([
      {
        id,
        name: "four up",
        pattern: { viewpoint: "chromatic interval", symbols: [4, 3, 3], notes: 4 },
        yours: true,
      },
    ]);
    const other = await post({ title: "Another" }, [60, 64, 67, 70, 67, 64]);
    const found = await json("/search", "POST", {
      viewpoint: ideas[0].pattern.viewpoint,
      symbols: ideas[0].pattern.symbols,
    });
    expect(new Set(found.hits.map((hit: { take: string }) => hit.take))).toEqual(
      new Set([take, other.take.id]),
    );
    await json(`/ideas/${id}`, "DELETE");
    expect((await json("/ideas")).ideas).toEqual([]);
    expect(await json(`/ideas/${id}/restore`, "POST")).toMatchObject({ name: "four up" });
  });

  it("is refused when it is no pattern of its viewpoint", async () => {
    const problem = await json("/ideas", "POST", {
      name: "six fingers",
      pattern: { viewpoint: "finger", symbols: [1, 6] },
    });
    expect(problem.code).toBe("not-a-pattern");
  });
});

describe("hand shapes of a take", () => {
  const own = {
    name: "seventh chord",
    fingers: [1, 2, 3, 5],
    semitones: [0, 4, 7, 10],
    anchorFinger: 1,
    anchorDegrees: [{ degree: "1", qualities: ["dominant"] }],
  };

  it("are chosen: the teacher's own alone explains what it holds, at once", async () => {
    await json("/shapes", "POST", { name: own.name, shape: own });
    const changed = await json(`/takes/${take}`, "PATCH", {
      options: { shapes: [own.name], ownShapes: [own] },
    });
    // Root, third, fifth and seventh of each chord lie under thumb, index, middle and little finger.
    // All but one of the sixteen: the high F begins the last bar an octave above the place of the three after it, and
    // no place of the shape holds it together with another note.
    expect(changed.analysis.handFit.share).toBe(15 / 16);
    expect(changed.analysis.placements.map((one: { shape: string }) => one.shape)).toEqual(
      changed.analysis.placements.map(() => own.name),
    );
    expect(changed.analysis.notes.slice(0, 4).map((note: { finger: number }) => note.finger)).toEqual([
      1, 2, 3, 5,
    ]);
  });

  it("are kept when the chart is corrected later, and the hand may be changed alone", async () => {
    const changed = await json(`/takes/${take}`, "PATCH", { options: { soloHand: "left" } });
    expect(changed.analysis.options).toMatchObject({ soloHand: "left", shapes: [own.name] });
    expect(changed.analysis.notes[0]).toMatchObject({ hand: "left", finger: 5 });
  });

  it("are refused by name when they are not known", async () => {
    expect(await json(`/takes/${take}`, "PATCH", { options: { shapes: ["claw"] } })).toMatchObject({
      code: "unknown-shape",
    });
  });
});
