/**
 * Spans, rules and worked values of Parncutt, Sloboda, Clarke, Raekallio & Desain, "An ergonomic model of keyboard
 * fingering for melodic fragments", Music Perception 14 (1997).
 */
import { describe, expect, it } from "vitest";
import { costOfFingering, ERGONOMIC_RULES } from "../../src/hands/ergonomics.ts";
import { FINGER_SPANS, fingerSpan } from "../../src/hands/finger-spans.ts";
import { cheapestFingering, fingeringsWithin } from "../../src/hands/fingerings.ts";
import type { Finger } from "../../src/take/index.ts";

const digits = (text: string) => [...text].map(Number) as Finger[];
const lastFinger = (keys: readonly number[], finger: Finger) =>
  keys.map((_, i) => (i === keys.length - 1 ? finger : null));

describe("the span table", () => {
  it.each([
    ["12", -5, -3, 1, 5, 8, 10],
    ["13", -4, -2, 3, 7, 10, 12],
    ["14", -3, -1, 5, 9, 12, 14],
    ["15", -1, 1, 7, 10, 13, 15],
    ["23", 1, 1, 1, 2, 3, 5],
    ["24", 1, 1, 3, 4, 5, 7],
    ["25", 2, 2, 5, 6, 8, 10],
    ["34", 1, 1, 1, 2, 2, 4],
    ["35", 1, 1, 3, 4, 5, 7],
    ["45", 1, 1, 1, 2, 3, 5],
  ])("has the published row for fingers %s", (pair, ...row) => {
    const [a, b] = digits(pair);
    const { minPrac, minComf, minRel, maxRel, maxComf, maxPrac } = fingerSpan(a!, b!);
    expect([minPrac, minComf, minRel, maxRel, maxComf, maxPrac]).toEqual(row);
    expect(fingerSpan(b!, a!)).toEqual(fingerSpan(a!, b!));
  });

  it("has ten pairs and twelve rules", () => {
    expect(FINGER_SPANS).toHaveLength(10);
    expect(ERGONOMIC_RULES).toHaveLength(12);
  });
});

describe("the worked fragments", () => {
  const first = [76, 79, 77, 79, 76, 77, 74, 76];
  const second = [61, 65, 63, 66, 65, 68, 66];

  it.each([
    [first, "24342313", 6],
    [first, "13231213", 7],
    [first, "14342313", 8],
    [second, "1323132", 12],
    [second, "2412132", 13],
  ])("%j with %s costs %i", (keys, fingers, cost) => {
    expect(costOfFingering(keys, digits(fingers)).total).toBe(cost);
  });

  it("are best played 24342313, then 13231213 and 14342313, when the last finger is to be 3", () => {
    const best = fingeringsWithin(first, 2, 50, { fixed: lastFinger(first, 3) });
    expect(best.slice(0, 2)).toEqual([
      { fingers: digits("24342313"), cost: 6 },
      { fingers: digits("13231213"), cost: 7 },
    ]);
    expect(best.filter(({ cost }) => cost === 8).map(({ fingers }) => fingers.join(""))).toContain(
      "14342313",
    );
  });

  it("are best played at 12 points, with 2412132 at 13, when the last finger is to be 2", () => {
    const best = fingeringsWithin(second, 2, 50, { fixed: lastFinger(second, 2) });
    expect(best[0]!.cost).toBe(12);
    expect(best.filter(({ cost }) => cost === 12).map(({ fingers }) => fingers.join(""))).toContain(
      "1323132",
    );
    expect(best.filter(({ cost }) => cost === 13).map(({ fingers }) => fingers.join(""))).toContain(
      "2412132",
    );
  });

  it("cost by rule what the rules say", () => {
    // 3 to 4 once, fingers 4 twice, small span 3-1 by one semitone, one change of position of one semitone.
    const { rules } = costOfFingering(first, digits("24342313"));
    expect(rules).toMatchObject({
      "weak finger": 2,
      "three to four": 1,
      "small span": 1,
      "position change count": 1,
      "position change size": 1,
    });
  });
});

describe("single rules", () => {
  const cost = (keys: number[], fingers: string) => costOfFingering(keys, digits(fingers)).rules;

  it("stretch: two points a semitone outside the comfortable span", () => {
    expect(cost([60, 65], "23").stretch).toBe(2 * (5 - 3));
  });
  it("small span: one point a semitone with the thumb, two without", () => {
    expect(cost([60, 62], "13")["small span"]).toBe(1);
    expect(cost([60, 61], "24")["small span"]).toBe(4);
  });
  it("large span: likewise", () => {
    expect(cost([60, 66], "12")["large span"]).toBe(1);
    expect(cost([60, 63], "23")["large span"]).toBe(2);
  });
  it("position change: two points when the thumb passes within a wide three-note group, one otherwise", () => {
    // C D E... F with 2 1 2: the second and first C a sixth apart by one finger; thumb in the middle, between: full.
    expect(cost([60, 64, 69], "212")["position change count"]).toBe(2);
    expect(cost([60, 67, 62], "212")["position change count"]).toBe(1);
  });
  it("three-four-five, weak fingers, three to four", () => {
    const rules = cost([64, 65, 67], "345");
    expect(rules["three-four-five"]).toBe(1);
    expect(rules["weak finger"]).toBe(2);
    expect(rules["three to four"]).toBe(1);
    expect(cost([67, 65, 64], "543")["three to four"]).toBe(0);
  });
  it("four on black beside three on white, in either order", () => {
    expect(cost([65, 66], "34")["four on black"]).toBe(1);
    expect(cost([66, 65], "43")["four on black"]).toBe(1);
    expect(cost([66, 67], "34")["four on black"]).toBe(0);
  });
  it("thumb on black: one, and two for each white neighbour; five on black: two for each", () => {
    expect(cost([60, 61, 62], "212")["thumb on black"]).toBe(5);
    expect(cost([60, 61, 62], "454")["five on black"]).toBe(4);
    expect(cost([61, 63, 66], "345")["five on black"]).toBe(0);
  });
  it("thumb passing: one on the level, three with the thumb on black under a finger on white", () => {
    expect(cost([64, 65], "31")["thumb passing"]).toBe(1);
    expect(cost([64, 66], "31")["thumb passing"]).toBe(3);
    expect(cost([63, 64], "31")["thumb passing"]).toBe(0);
  });
});

it("the search finds no cheaper fingering than trying all of them does", () => {
  const keys = [60, 64, 62, 66, 69];
  let best = Number.POSITIVE_INFINITY;
  for (let code = 0; code < 5 ** keys.length; code++) {
    const fingers = keys.map((_, i) => (Math.floor(code / 5 ** i) % 5) + 1) as Finger[];
    const playable = keys.every((key, i) => {
      if (i === 0) return true;
      const [a, b] = [fingers[i - 1]!, fingers[i]!];
      const span = fingerSpan(a, b);
      const reach = a < b ? key - keys[i - 1]! : keys[i - 1]! - key;
      return a !== b && reach >= span.minPrac && reach <= span.maxPrac;
    });
    if (playable) best = Math.min(best, costOfFingering(keys, fingers).total);
  }
  expect(cheapestFingering(keys)!.cost).toBe(best);
});
