import { describe, expect, it } from "vitest";
import { chartText, formChart, parseChart, proposeChart } from "../../src/chart/index.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { emptyTake } from "../take/empty-take.ts";
import { type Comping, compingTake, noteAt } from "./comping-take.ts";

const human: Omit<Comping, "voicing" | "seed"> = { choruses: 2, tempo: 140, jitter: 0.02, early: 0.2 };
const propose = (take: Take, options = {}) => proposeChart(take, take.notes, options)!;
const bars = (text: string) =>
  text
    .split("\n")
    .filter((line) => line.startsWith("|"))
    .join("\n");

describe("a chart from what the comping hand plays", () => {
  it("reads a progression that is none of the forms, chord by chord", () => {
    const text = "| Gmaj7 | Em7 | Am7 | D7 |\n| Bm7 E7 | Am7 | Cm6 | Gmaj7 |";
    const chart = parseChart(`key: G\n${text}`);
    const take = compingTake(chart, { ...human, voicing: "shell", seed: 3 });
    const proposal = propose(take);
    expect(bars(chartText(proposal.chart))).toBe(text);
    expect(proposal.chart.key).toMatchObject({ tonic: "G", mode: "major" });
    expect(proposal.form).toBeNull();
    expect(proposal.description).toBe("8 bars in G");
    expect(proposal.bars).toHaveLength(8);
    expect(Math.min(...proposal.bars.map(({ confidence }) => confidence))).toBeGreaterThan(0.6);
  });

  // Six flats name the roots of G flat major: G flat, A flat, D flat; two sharps would write them with sharps.
  it("names its chords in the key that the source signs at their bars", () => {
    const chart = parseChart("key: D\n| Dmaj7 | Em7 | A7 | Dmaj7 |\n| Gbmaj7 | Abm7 | Db7 | Gbmaj7 |");
    const take = compingTake(chart, { ...human, jitter: 0, early: 0, voicing: "close", seed: 4 });
    const bar = (60 / 140) * 4;
    const keys = [0, 4, 8, 12].map((line) => ({
      tick: take.notes.find(({ onset }) => onset >= line * bar - 0.05)!.tick,
      fifths: line % 8 === 0 ? 2 : -6,
      mode: "major" as const,
    }));
    const named = (proposal: ReturnType<typeof propose>) =>
      proposal.chart.bars.map(({ chords }) => chords[0]!.symbol.replace(/(?<=.)[m7].*/, ""));
    expect(named(propose({ ...take, keys }))).toEqual(["D", "E", "A", "D", "Gb", "Ab", "Db", "Gb"]);
  });

  it("says which bar it is less sure of: the one that is played otherwise each time", () => {
    const chart = formChart("blues-basic", "F");
    const take = compingTake(chart, { ...human, jitter: 0, early: 0, voicing: "close", seed: 2 });
    const bar = (60 / 140) * 4;
    const other = (note: Note) => Math.floor(note.onset / bar + 0.01) % 12 === 6;
    const notes = take.notes.map((note, i) =>
      other(note) ? { ...note, pitch: note.pitch + (i % 3) + 1 } : note,
    );
    const proposal = propose({ ...take, notes });
    expect(proposal.description).toBe("12-bar blues in F");
    const confidences = proposal.bars.map(({ confidence }) => confidence);
    expect(confidences.indexOf(Math.min(...confidences))).toBe(6);
    expect(proposal.bars[6]).toMatchObject({ bar: 7 });
  });

  it("gives several candidates, the best first, with confidences from 0 to 1", () => {
    const take = compingTake(formChart("blues-minor", "D"), { ...human, voicing: "shell", seed: 5 });
    const proposal = propose(take);
    expect(proposal.candidates.length).toBeGreaterThan(1);
    expect(proposal.candidates[0]).toMatchObject({
      description: proposal.description,
      confidence: proposal.confidence,
    });
    const confidences = proposal.candidates.map(({ confidence }) => confidence);
    expect(confidences.toSorted((a, b) => b - a)).toEqual(confidences);
    for (const { confidence, bars: each, chart } of proposal.candidates) {
      expect(confidence).toBeGreaterThanOrEqual(0);
      expect(confidence).toBeLessThanOrEqual(1);
      expect(each.map(({ bar }) => bar)).toEqual(chart.bars.map(({ number }) => number));
      for (const { confidence: one } of each) expect(one >= 0 && one <= 1).toBe(true);
      expect(parseChart(chartText(chart)).bars).toHaveLength(chart.bars.length);
    }
  });

  it("takes the bars of a notated take, from the one in which the comping starts", () => {
    const chart = formChart("two-five-one", "Ab");
    const played = compingTake(chart, {
      ...human,
      tempo: 120,
      jitter: 0,
      early: 0,
      voicing: "close",
      seed: 1,
    });
    const notes = played.notes.map((note) => ({ ...note, onset: note.onset + 4, tick: note.tick + 3840 }));
    const all = Array.from({ length: 10 }, (_, bar) => ({
      number: String(bar),
      tick: bar * 1920,
      ticks: 1920,
      implicit: false,
      pass: 0,
    }));
    const take = emptyTake({ format: "musicxml", notes, bars: all, title: "Head" });
    expect(propose(take).description).toBe("II-V-I in Ab");
    expect(propose(take).chart.bars).toHaveLength(4);
  });

  it("takes the tempo that it is told, when the source states none", () => {
    const chart = formChart("blues-quick-change", "C");
    const played = compingTake(chart, {
      ...human,
      tempo: 90,
      jitter: 0.01,
      early: 0,
      voicing: "shell",
      seed: 8,
    });
    const unstated: Take = {
      ...played,
      tempoStated: false,
      tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
    };
    const description = "12-bar blues with quick change in C";
    expect(propose(unstated, { tempo: 90 }).description).toBe(description);
    expect(propose(unstated)).toMatchObject({ description, confidence: expect.closeTo(0.8, 1) });
    const lines = Array.from({ length: 25 }, (_, bar) => (bar * 240) / 90);
    expect(propose(unstated, { barLines: lines }).description).toBe(description);
  });

  it("reads other meters", () => {
    const waltz = parseChart("key: Bb\nmeter: 3/4\nBbmaj7 | Gm7 | Cm7 | F7");
    const take = compingTake(waltz, { ...human, choruses: 3, early: 0, voicing: "close", seed: 4 });
    const proposal = propose(take);
    expect(proposal.chart.meter).toEqual({ beats: 3, unit: 4 });
    expect(bars(chartText(proposal.chart))).toBe("| Bbmaj7 | Gm7 | Cm7 | F7 |");
    const slow = { ...formChart("blues-eight-bar", "E"), meter: { beats: 12, unit: 8 } };
    const stretched = {
      ...slow,
      bars: slow.bars.map((bar) => ({ ...bar, chords: bar.chords.map((c) => ({ ...c, beats: 12 })) })),
    };
    const blues = propose(compingTake(stretched, { ...human, voicing: "shell", seed: 6 }));
    expect(blues.description).toBe("8-bar blues in E");
    expect(blues.chart.bars[0]!.chords[0]).toMatchObject({ symbol: "E7", beat: 1, beats: 12 });
  });

  it("proposes nothing without comping or bars", () => {
    expect(proposeChart(emptyTake(), [])).toBeNull();
    expect(proposeChart(emptyTake({ notes: [noteAt(1, 60, 0, 1, 120)] }), [])).toBeNull();
  });

  describe("the stretch that is listened to", () => {
    const twoFive = (key: string, choruses = 1) =>
      compingTake(formChart("two-five-one", key), {
        ...human,
        choruses,
        tempo: 120,
        jitter: 0,
        early: 0,
        voicing: "close",
        seed: 1,
      });
    /** Bars of two seconds at 120; a note of the melody before or after. */
    const later = (take: Take, seconds: number): Take => ({
      ...take,
      notes: take.notes.map((note) => ({
        ...note,
        onset: note.onset + seconds,
        tick: note.tick + 960 * seconds,
      })),
    });
    const symbols = (take: Take, comping = take.notes) =>
      proposeChart(take, comping)!.chart.bars.map((bar) => bar.chords.map(({ symbol }) => symbol).join(" "));
    const cadence = ["Dm7", "G7", "Cmaj7", "Cmaj7"];

    it("begins with the bar in which comping comes in, a touch early or not", () => {
      for (const seconds of [0, 2, 8, 3.9]) {
        expect(symbols(later(twoFive("C"), seconds)), String(seconds)).toEqual(cadence);
      }
    });

    it("ends with the bar in which comping ends, whatever the melody goes on with", () => {
      const take = twoFive("C");
      const melody = noteAt(900, 84, 12, 4, 120);
      const whole = { ...take, notes: [...take.notes, melody] };
      expect(symbols(whole, take.notes)).toEqual(cadence);
      // A last chord right on the next bar line is a bar of its own.
      const tonic = [48, 52, 55, 59].map((pitch, i) => noteAt(910 + i, pitch, 8, 2, 120));
      const ending = { ...take, notes: [...take.notes, ...tonic] };
      expect(proposeChart(ending, ending.notes)!.candidates.map(({ chart }) => chart.bars.length)).toContain(
        5,
      );
    });

    it("is less sure of one bar than of two, and of two than of four", () => {
      const sure = [1, 2, 3, 4].map((bars) => {
        const take = twoFive("C");
        const notes = take.notes.filter(({ onset }) => onset < 2 * bars - 0.1);
        return proposeChart({ ...take, notes }, notes)!;
      });
      expect(sure.slice(0, 2).map(({ chart }) => chart.bars.length)).toEqual([1, 2]);
      const confidences = sure.map(({ confidence }) => confidence);
      expect(confidences.toSorted((a, b) => a - b)).toEqual(confidences);
      expect(confidences[0]).toBeLessThanOrEqual(0.25);
      expect(confidences[1]).toBeLessThanOrEqual(0.5);
      expect(confidences[3]).toBeGreaterThan(0.75);
    });

    it("is counted from the first note where the tempo is told, in any meter", () => {
      for (const meter of ["3/4", "6/8", "2/2"]) {
        const chart = parseChart(`key: C\nmeter: ${meter}\nDm7 | G7 | Cmaj7 | Cmaj7`);
        const played = later(
          compingTake(chart, { ...human, tempo: 90, jitter: 0, early: 0, voicing: "shell", seed: 2 }),
          5,
        );
        const unstated = {
          ...played,
          tempoStated: false,
          tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
        };
        const proposal = propose(unstated, { tempo: 90 });
        expect(proposal.description, meter).toBe("II-V-I in C");
        expect(proposal.chart.bars[0]!.chords[0]!.beats).toBe(chart.meter.beats);
      }
    });

    it("keeps to the tempo that the source states", () => {
      expect(propose(twoFive("C"), { tempo: 77 })).toEqual(propose(twoFive("C")));
      expect(propose(twoFive("C"), { tempo: null })).toEqual(propose(twoFive("C")));
    });
  });

  describe("the chart that is proposed", () => {
    const close = { ...human, jitter: 0, early: 0, voicing: "close", seed: 4 } as const;
    const SIXTEEN =
      "Gmaj7 | Em7 | Am7 | D7 | Bm7 | E7 | Am7 | D7 | Gmaj7 | G7 | Cmaj7 | Cm6 | Bm7 | Em7 | Am7 | Gmaj7";

    it("has the length after which the comping comes round", () => {
      const eight = parseChart("key: G\nGmaj7 | Em7 | Am7 | D7 | Bm7 | E7 | Am7 | Cm6");
      expect(propose(compingTake(eight, { ...close, choruses: 3 })).chart.bars).toHaveLength(8);
      const sixteen = parseChart(`key: G\n${SIXTEEN}`);
      expect(propose(compingTake(sixteen, { ...close, choruses: 2 })).chart.bars).toHaveLength(16);
      // Played once, though its second half starts as its first: a part of it seems to return.
      expect(propose(compingTake(sixteen, { ...close, choruses: 1 })).chart.bars).toHaveLength(16);
      expect(propose(compingTake(eight, { ...close, choruses: 1 })).chart.bars).toHaveLength(8);
    });

    it("is named as the take is, in the key as the take signs it", () => {
      const sharp = parseChart("key: F#\nF#maj7 | D#m7 | G#m7 | C#7 | A#m7 | D#7 | G#m7 | Bm6");
      const played = compingTake(sharp, close);
      const signed = (fifths: number) => ({
        ...played,
        title: "Study",
        keys: [{ tick: 0, fifths, mode: "major" as const }],
      });
      const proposal = propose(signed(6));
      expect(proposal.chart).toMatchObject({ name: "Study", key: { tonic: "F#", mode: "major" } });
      expect(proposal.description).toBe("8 bars in F#");
      expect(proposal.chart.bars[0]!.chords[0]!.symbol).toBe("F#maj7");
      expect(proposal.chart.bars[2]!.chords[0]!.symbol).toBe("G#m7");
      const flats = propose(signed(-6)).chart;
      expect([flats.key.tonic, flats.bars[2]!.chords[0]!.symbol]).toEqual(["Gb", "Abm7"]);
      const blues = compingTake(formChart("blues-basic", "F#"), close);
      const flat = propose({ ...blues, keys: [{ tick: 0, fifths: -6, mode: "major" }] });
      expect(flat.description).toBe("12-bar blues in Gb");
      expect(flat.chart.bars[4]!.chords[0]!.symbol).toBe("Cb7");
    });

    it("changes chord in the middle of a bar where the hand does", () => {
      const chart = parseChart(
        "key: F\nFmaj7 D7 | Gm7 C7 | Am7 D7 | Gm7 C7 | Fmaj7 | Bbm6 | Fmaj7 D7 | Gm7 C7",
      );
      const proposal = propose(compingTake(chart, { ...close, choruses: 2, voicing: "shell" }));
      expect(bars(chartText(proposal.chart))).toBe(bars(chartText(chart)));
      expect(proposal.chart.bars[0]!.chords.map(({ beat, beats }) => [beat, beats])).toEqual([
        [1, 2],
        [3, 2],
      ]);
    });

    it("has a form's half bars in the meter of the take", () => {
      const swung = parseChart(
        chartText(formChart("blues-two-five", "F")).replace("meter: 4/4", "meter: 12/8"),
      );
      expect(swung.meter).toEqual({ beats: 12, unit: 8 });
      const proposal = propose(compingTake(swung, { ...close, choruses: 2, voicing: "shell" }));
      expect(proposal.form?.form).toBe("blues-two-five");
      expect(proposal.chart.bars[10]!.chords.map(({ symbol, beat, beats }) => [symbol, beat, beats])).toEqual(
        [
          ["F7", 1, 6],
          ["D7", 7, 6],
        ],
      );
    });

    it("is surer of every bar that is played as it stands than of a bar with another chord", () => {
      const chart = formChart("blues-basic", "C");
      const take = compingTake(chart, { ...close, choruses: 3 });
      const bar = (60 / human.tempo) * 4;
      const notes = take.notes.map((note) =>
        Math.floor(note.onset / bar + 0.01) % 12 === 9 ? { ...note, pitch: note.pitch + 1 } : note,
      );
      const { bars: each, form } = proposeChart({ ...take, notes }, notes)!;
      expect(form?.form).toBe("blues-basic");
      expect(each[9]!.confidence).toBeLessThan(
        Math.min(...each.filter((_, i) => i !== 9).map((one) => one.confidence)),
      );
    });

    it("gives bars in which nothing is played the confidence of the whole", () => {
      const take = compingTake(formChart("blues-basic", "C"), close);
      const bar = (60 / human.tempo) * 4;
      const notes = take.notes.filter(({ onset }) => Math.floor(onset / bar + 0.01) % 12 !== 6);
      const proposal = proposeChart({ ...take, notes }, notes)!;
      expect(proposal.description).toBe("12-bar blues in C");
      expect(proposal.bars[6]!.confidence).toBeCloseTo(proposal.confidence, 6);
    });

    it("recognises a form that is read freely, in its own key", () => {
      const vamp = parseChart("key: C\nC7 | C7 | C7 | C7");
      const proposal = propose(compingTake(vamp, { ...close, choruses: 2 }));
      expect(proposal.description).toBe("One-chord vamp in C");
      expect(proposal.form).toMatchObject({ form: "vamp-one-chord", key: { tonic: "C" } });
      expect(proposal.chart.key.tonic).toBe("C");
    });
  });

  describe("what is measured, and what is not", () => {
    const cadence = compingTake(formChart("two-five-one", "Ab"), {
      ...human,
      choruses: 2,
      tempo: 120,
      jitter: 0,
      early: 0,
      voicing: "close",
      seed: 1,
    });
    const notated: Take = {
      ...cadence,
      format: "musicxml",
      tempoStated: false,
      bars: Array.from({ length: 8 }, (_, bar) => ({
        number: String(bar + 1),
        tick: bar * 1920,
        ticks: 1920,
        implicit: false,
        pass: 0,
      })),
    };
    it("believes the bars of notation without a tempo, and before a tempo that is told", () => {
      const plain = propose(notated);
      expect(plain.description).toBe("II-V-I in Ab");
      expect(plain.confidence).toBeGreaterThan(0.9);
      expect(propose(notated, { tempo: 47 })).toEqual(plain);
    });

    it("takes bar lines that the caller knows before any others", () => {
      const lines = Array.from({ length: 5 }, (_, bar) => bar * 4);
      // Two bars heard as one: the II and the V share it.
      const proposal = propose(cadence, { barLines: lines });
      expect(proposal.chart.bars[0]!.chords.map(({ symbol }) => symbol)).toEqual(["Bbm7", "Eb7"]);
    });

    it("has nothing to say without bars or without comping, however it is asked", () => {
      const unstated: Take = { ...cadence, tempoStated: false };
      for (const options of [
        {},
        { tempo: 90 },
        { barLines: [] },
        { barLines: [0] },
        { barLines: [0, 2, 4] },
      ]) {
        expect(proposeChart(unstated, [], options)).toBeNull();
      }
      for (const barLines of [[], [0]]) expect(proposeChart(cadence, cadence.notes, { barLines })).toBeNull();
      expect(proposeChart(emptyTake({ tempoStated: false }), [], { tempo: 90 })).toBeNull();
      // A single chord cannot be laid in bars of free time.
      expect(proposeChart(unstated, unstated.notes.slice(0, 3))).toBeNull();
    });

    it("listens no further than the comping goes", () => {
      const six = parseChart("key: G\nGmaj7 | Em7 | Am7 | D7 | Bm7 | Cm6");
      const take = compingTake(six, {
        ...human,
        choruses: 1,
        tempo: 120,
        jitter: 0,
        early: 0,
        voicing: "shell",
        seed: 1,
      });
      const whole = { ...take, notes: [...take.notes, noteAt(900, 84, 12, 4, 120)] };
      expect(proposeChart(whole, take.notes)!.chart.bars).toHaveLength(6);
    });

    it("has one chord to a bar of two or of three beats", () => {
      for (const text of [
        "meter: 2/4\nCmaj7 F7 | Cmaj7 F7",
        "meter: 3/4\nCmaj7:1.5 F7:1.5 | Cmaj7:1.5 F7:1.5",
      ]) {
        const chart = parseChart(`key: C\n${text}`);
        const take = compingTake(chart, {
          ...human,
          tempo: 80,
          jitter: 0,
          early: 0,
          voicing: "shell",
          seed: 1,
        });
        for (const { chords } of propose(take).chart.bars) expect(chords).toHaveLength(1);
      }
    });
  });

  describe("the candidates", () => {
    const played = (text: string, choruses: number) =>
      compingTake(parseChart(text), { ...human, choruses, jitter: 0, early: 0, voicing: "shell", seed: 3 });
    it("are at most five, each once, and those of forms share one certainty", () => {
      for (const form of ["blues-basic", "two-five-one", "vamp-two-chord", "aaba-dominant-bridge"]) {
        const { candidates } = propose(
          compingTake(formChart(form, "D"), { ...human, voicing: "rootless", seed: 2 }),
        );
        expect(candidates.length).toBeLessThanOrEqual(5);
        const texts = candidates.map(({ chart, form: found }) => `${found?.form} ${chartText(chart)}`);
        expect(new Set(texts).size).toBe(texts.length);
        const forms = candidates.filter((one) => one.form !== null && one.chart.name === one.form.name);
        expect(forms.reduce((sum, { confidence }) => sum + confidence, 0)).toBeLessThanOrEqual(1 + 1e-9);
      }
    });

    it("take a take for one chorus only where it has a usual length", () => {
      const blues = formChart("blues-basic", "C");
      const text = chartText({ ...blues, bars: [...blues.bars, ...blues.bars, ...blues.bars.slice(0, 3)] });
      const lengths = propose(played(text, 1)).candidates.map(({ chart }) => chart.bars.length);
      expect(lengths).not.toContain(27);
      const two = propose(played(chartText(blues), 2)).candidates.map(({ chart }) => chart.bars.length);
      expect(two).toContain(24);
    });

    it("number their bars from 1, and name a single bar so", () => {
      const { chart, description } = propose(played("key: G\nAm7 D7", 1));
      expect(chart.bars.map(({ number }) => number)).toEqual([1]);
      expect(description).toMatch(/^1 bar in /);
      const eight = propose(played("key: G\nGmaj7 | Em7 | Am7 | D7 | Bm7 | E7 | Am7 | Cm6", 2));
      expect(eight.chart.bars.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    });

    it("come round though a bar is left out in the first chorus or in the second", () => {
      const take = played("key: G\nGmaj7 | Em7 | Am7 | D7 | Bm7 | E7 | Am7 | Cm6", 3);
      const bar = (60 / human.tempo) * 4;
      for (const silent of [2, 10]) {
        const notes = take.notes.filter(({ onset }) => Math.floor(onset / bar + 0.01) !== silent);
        expect(proposeChart({ ...take, notes }, notes)!.chart.bars, String(silent)).toHaveLength(8);
      }
    });
  });

  it("is the same every time", () => {
    const take = compingTake(formChart("blues-two-five", "G"), { ...human, voicing: "rootless", seed: 9 });
    expect(propose(take)).toEqual(propose(take));
  });
});
