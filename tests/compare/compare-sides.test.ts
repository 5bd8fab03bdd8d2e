import { describe, expect, it } from "vitest";
import { compareAll, compareSides, poolSamples, sampleOf } from "../../src/compare/index.ts";
import { accountOf, eighths, type Written } from "../findings/account-builder.ts";

/** Phrases of `notes` eighths, one every `every` beats. */
function phrases(
  count: number,
  every: number,
  notes: number,
  from = 60,
  role: "root" | "third" = "root",
): Written[] {
  return Array.from({ length: count }, (_, k) =>
    eighths(
      k * every,
      Array.from({ length: notes }, (_, i) => from + [0, 3, 5, 3, 7, 5, 3, 0][(i + k) % 8]!),
      { role, guideTone: role === "third" },
    ),
  ).flat();
}

const sparse = accountOf({ notes: phrases(12, 8, 5), choruses: 2, over: { source: { title: "Sparse" } } });
const dense = accountOf({
  notes: phrases(12, 8, 12, 72, "third"),
  choruses: 2,
  over: { source: { title: "Dense" } },
});

describe("two takes side by side", () => {
  const comparison = compareSides(sampleOf(sparse), sampleOf(dense), 1);
  const measure = (id: string) => comparison.measures.find((one) => one.id === id)!;

  it("says plainly which has clearly fewer notes and more rest", () => {
    expect(measure("density").verdict).toBe("clearly less");
    expect(measure("rests").verdict).toBe("clearly more");
    expect(measure("rests").sentence).toBe("Sparse clearly has more rest than Dense.");
  });

  it("gives the difference an interval that holds it and an effect size", () => {
    const { difference, interval, delta } = measure("phrase-length");
    expect(difference).toBe(-7);
    expect(interval![0]).toBeLessThanOrEqual(-7);
    expect(interval![1]).toBeGreaterThanOrEqual(-7);
    expect(delta).toBe(-1);
  });

  it("names the label by which distributions differ", () => {
    const roles = comparison.distributions.find((one) => one.id === "roles")!;
    expect(roles.divergence).toBe(1);
    expect(roles.verdict).toBe("clearly different");
    expect(roles.sentence).toContain("Harmonic roles: clearly different");
  });

  it("sums up what is clear in one sentence a kind, and says nothing where nothing is", () => {
    expect(comparison.summary[0]).toMatch(/^Sparse clearly has fewer notes a bar, .* and .* than Dense\.$/);
    expect(comparison.summary.join(" ")).toContain("Harmonic roles differ clearly, most of all in");
    expect(compareSides(sampleOf(sparse), sampleOf(sparse), 1).summary).toEqual([]);
  });

  it("says no clear difference of a take and itself", () => {
    const same = compareSides(sampleOf(sparse), sampleOf(sparse), 1);
    for (const one of same.measures)
      expect(["no clear difference", "too little to say"]).toContain(one.verdict);
    for (const one of same.distributions) expect(one.divergence).toBeCloseTo(0, 12);
  });

  it("says too little to say of two phrases each", () => {
    const short = accountOf({ notes: phrases(2, 8, 5) });
    const small = compareSides(sampleOf(short), sampleOf(dense, { chorus: 1 }), 1);
    expect(small.measures.find((one) => one.id === "density")!.verdict).not.toMatch(/clearly/);
    const two = compareSides(sampleOf(short), sampleOf(short), 1);
    for (const one of two.measures) expect(one.verdict).toBe("too little to say");
  });

  it("is the same for the same seed", () => {
    expect(compareSides(sampleOf(sparse), sampleOf(dense), 9)).toEqual(
      compareSides(sampleOf(sparse), sampleOf(dense), 9),
    );
  });
});

describe("the same bar of two sides", () => {
  it("lies in one place, a layer for each chorus of each side", () => {
    const { bars } = compareSides(sampleOf(sparse), sampleOf(dense, { chorus: 2 }), 1);
    expect(bars).toHaveLength(12);
    const [first] = bars;
    expect(first!.layers.map((layer) => [layer.side, layer.chorus])).toEqual([
      [0, 1],
      [0, 2],
      [1, 2],
    ]);
    expect(first!.layers[0]!.notes.map((note) => note.start)).toEqual([0, 0.125, 0.25, 0.375, 0.5]);
  });
});

describe("what sides share", () => {
  it("finds the line that both play, at whatever pitch", () => {
    const low = accountOf({ notes: eighths(0, [60, 63, 65, 67, 65, 60]) });
    const high = accountOf({ notes: eighths(2, [72, 75, 77, 79, 77, 80]) });
    const { shared } = compareSides(sampleOf(low), sampleOf(high), 1);
    expect(shared.lines).toMatchObject([{ intervals: [3, 2, 2, -2], starts: [["n1"], ["n1"]] }]);
  });
});

describe("three sides or more", () => {
  it("are rows with a trend", () => {
    const weeks = [4, 6, 9].map((notes) => sampleOf(accountOf({ notes: phrases(6, 8, notes) })));
    const many = compareAll(weeks);
    const length = many.measures.find((one) => one.id === "phrase-length")!;
    expect(length.values).toEqual([4, 6, 9]);
    expect(length.trend!.words).toBe("rises at every step");
    // Every phrase of a week has the same length, so no draw of phrases can give another.
    expect(length.intervals).toEqual([
      [4, 4],
      [6, 6],
      [9, 9],
    ]);
    expect(length.words).toBe("clearly more");
    const ends = many.ends.measures.find((one) => one.id === "phrase-length")!;
    expect([ends.difference, ends.delta, ends.verdict]).toEqual([-5, -1, "clearly less"]);
    expect(() => compareAll(weeks.slice(0, 1))).toThrow(RangeError);
  });

  it("can be poolSamples into a class", () => {
    const all = poolSamples("Class", [sampleOf(sparse), sampleOf(dense)]);
    expect(all.units).toHaveLength(24);
    expect(() => poolSamples("Nobody", [])).toThrow(RangeError);
    expect(() => sampleOf(sparse, { chorus: 3 })).toThrow(/no chorus 3/);
  });
});
