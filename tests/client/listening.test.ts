import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Chord, Note } from "tonal";
import { describe, expect, test } from "vitest";
import { type AccountIndex, indexAccount } from "../../client/shell/account-index.ts";
import type { Selection } from "../../client/shell/selection.ts";
import type { Backing } from "../../client/sound/backing.ts";
import { eventsOf, type Playing, type SoundEvent } from "../../client/sound/events.ts";
import { passagesOf } from "../../client/sound/passages.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText, formChart } from "../../src/chart/index.ts";

const take = (file: string): AccountIndex =>
  indexAccount(
    analyse(
      readFileSync(join(import.meta.dirname, "../../corpus/takes", file)),
      chartText(formChart("blues-quick-change", "F")),
      { name: file },
    ),
  );

const index = take("bram-quick-change.mid");
const ALONE: Playing = {
  backing: new Set(),
  otherHand: false,
  speed: 1,
  loop: false,
  timing: "played",
  countIn: false,
};
const heard = (selection: Selection, how: Partial<Playing> = {}): SoundEvent[] =>
  eventsOf(index, passagesOf(index, selection), { ...ALONE, ...how });
const ids = (events: readonly SoundEvent[]) => events.flatMap((event) => event.note ?? []);
const withBacking = (...kinds: Backing[]) => ({ backing: new Set(kinds) });

describe("what sounds when a part of a take is played", () => {
  test("all of it: every note of the solo, as far apart as it was played", () => {
    const events = heard({ kind: "none" });
    expect(ids(events)).toEqual(index.solo.map((note) => note.id));
    events.forEach((event, i) => {
      const note = index.solo[i]!;
      expect(event.pitch).toBe(note.pitch);
      expect(event.at - events[0]!.at).toBeCloseTo(note.onset - index.solo[0]!.onset, 9);
    });
  });

  test("a bar: the notes of that bar, also one that came before its bar line, and none of the next bar", () => {
    for (const chorus of index.choruses) {
      for (let bar = 1; bar <= index.chartBars; bar++) {
        expect(ids(heard({ kind: "bar", chorus, bar })), `chorus ${chorus}, bar ${bar}`).toEqual(
          index.inBar(chorus, bar).map((note) => note.id),
        );
      }
    }
  });

  test("a bar of every chorus: one after the other", () => {
    expect(ids(heard({ kind: "bar", chorus: null, bar: 4 }))).toEqual(
      index.choruses.flatMap((chorus) => index.inBar(chorus, 4).map((note) => note.id)),
    );
  });

  test("a chorus: its notes; a phrase and a placement: theirs", () => {
    const own = (chorus: number) => index.solo.filter((note) => note.chorus === chorus && note.bar >= 1);
    for (const chorus of index.choruses)
      expect(ids(heard({ kind: "chorus", chorus }))).toEqual(own(chorus).map((note) => note.id));
    const phrase = index.analysis.phrases.at(-1)!;
    expect(ids(heard({ kind: "phrase", phrase: phrase.id }))).toEqual(
      index.between(phrase.firstNote, phrase.lastNote).map((note) => note.id),
    );
    const placement = index.analysis.placements[1]!;
    expect(ids(heard({ kind: "placement", placement: placement.id }))).toEqual([
      ...index.notesOf({ kind: "placement", placement: placement.id })!,
    ]);
  });

  test("a motif: each of its places, half a second of silence between", () => {
    const motif = index.analysis.motifs[0]!;
    const events = heard({ kind: "motif", motif: motif.id });
    const places = motif.occurrences.map((one) => index.between(one.firstNote, one.lastNote));
    expect(ids(events)).toEqual(places.flatMap((notes) => notes.map((note) => note.id)));
    const second = events.findIndex((event) => event.note === places[1]![0]!.id);
    const last = places[0]!.at(-1)!;
    expect(events[second]!.at).toBeCloseTo(last.onset + last.duration - places[0]![0]!.onset + 0.5, 9);
  });

  test("a finding: the bars that it speaks of", () => {
    const finding = index.analysis.findings.find((one) => one.bars.length > 0)!;
    const bars = new Set(finding.bars.map((place) => `${place.chorus}.${place.bar}`));
    expect(new Set(ids(heard({ kind: "finding", finding: finding.id })))).toEqual(
      new Set(index.solo.filter((note) => bars.has(`${note.chorus}.${note.bar}`)).map((note) => note.id)),
    );
  });

  test("with the recorded other hand: all that it played, and the solo with it", () => {
    const events = heard({ kind: "none" }, { otherHand: true });
    expect(index.other.length).toBeGreaterThan(10);
    expect(
      events
        .filter((event) => event.kind === "other")
        .map((event) => event.pitch)
        .sort(),
    ).toEqual(index.other.map((note) => note.pitch).sort());
    expect(ids(events)).toEqual(index.solo.map((note) => note.id));
  });

  test("with a click: four even beats a bar in 4/4, the first one told apart", () => {
    const events = heard({ kind: "chorus", chorus: 1 }, withBacking("click"));
    const clicks = events.filter((event) => event.kind === "click");
    expect(clicks).toHaveLength(4 * index.chartBars);
    expect(clicks.map((event) => event.pitch)).toEqual(clicks.map((_, i) => (i % 4 === 0 ? 1 : 0)));
    const bars = index.analysis.alignment.bars.filter((bar) => bar.chorus === 1);
    const start = passagesOf(index, { kind: "chorus", chorus: 1 })[0]!.from;
    clicks.forEach((event, i) => {
      const bar = bars[Math.floor(i / 4)]!;
      expect(event.at).toBeCloseTo(bar.start + ((i % 4) / 4) * (bar.end - bar.start) - start, 9);
    });
  });

  // A walking bass plays a note on each beat and the root where the chord changes [practice]; roots by tonal.
  test("with a walking bass: a note on each beat, the root at each change of chord, in a bass's range", () => {
    const bass = heard({ kind: "chorus", chorus: 1 }, withBacking("bass")).filter(
      (event) => event.kind === "bass",
    );
    expect(bass).toHaveLength(4 * index.chartBars);
    let before = "";
    index.analysis.chart.bars.forEach((bar, i) => {
      const symbol = bar.chords[0]!.symbol;
      if (symbol !== before) expect(bass[i * 4]!.pitch % 12).toBe(Note.chroma(Chord.get(symbol).tonic!));
      before = bar.chords.at(-1)!.symbol;
    });
    // E1 (28) is the lowest open string of a double bass.
    for (const { pitch } of bass) expect(pitch).toBeGreaterThanOrEqual(28);
    for (const { pitch } of bass) expect(pitch).toBeLessThanOrEqual(55);
    for (const [i, { pitch }] of bass.entries())
      if (i > 0) expect(Math.abs(pitch - bass[i - 1]!.pitch)).toBeLessThanOrEqual(12);
  });

  // Shell voicing: third and seventh of the chord [practice]; its tones by tonal.
  test("with shells: the third and the seventh of each chord and nothing else", () => {
    const shells = heard({ kind: "chorus", chorus: 1 }, withBacking("shells")).filter(
      (event) => event.kind === "shell",
    );
    const bars = index.analysis.alignment.bars.filter((bar) => bar.chorus === 1);
    const start = passagesOf(index, { kind: "chorus", chorus: 1 })[0]!.from;
    for (const [i, bar] of index.analysis.chart.bars.entries()) {
      if (bar.chords.length !== 1) continue;
      const tones = Chord.get(bar.chords[0]!.symbol);
      const wanted = tones.notes
        .filter((_, k) => /^[37]/.test(tones.intervals[k]!))
        .map((name) => Note.chroma(name));
      const sounding = shells.filter((event) => Math.abs(event.at + start - bars[i]!.start) < 0.01);
      expect(sounding.map((event) => event.pitch % 12).sort(), bar.chords[0]!.symbol).toEqual(wanted.sort());
    }
  });

  test("slower: the same notes at the same pitches, since time and not sound is stretched", () => {
    const slow = heard({ kind: "chorus", chorus: 1 }, { speed: 0.5, ...withBacking("click", "bass") });
    const usual = heard({ kind: "chorus", chorus: 1 }, { speed: 1, ...withBacking("click", "bass") });
    expect(slow).toEqual(usual);
  });

  test("without a beat there is no click, and bass and shells only where chords change", () => {
    const free = take("maren-rubato.mid");
    expect(free.analysis.alignment.method).toBe("rubato");
    const events = eventsOf(free, passagesOf(free, { kind: "none" }), {
      ...ALONE,
      ...withBacking("click", "bass", "shells"),
    });
    expect(events.filter((event) => event.kind === "click")).toEqual([]);
    const bass = events.filter((event) => event.kind === "bass").length;
    expect(bass).toBeGreaterThan(5);
    expect(bass).toBeLessThanOrEqual(free.analysis.alignment.bars.length * 2);
  });
});
