/**
 * What beginners learn first, in five keys, as a teacher fingers it, where no shape is chosen. Sources beside each:
 * scales and arpeggios from the handbooks of tests/hands/handbooks.ts, the chromatic scale from Hanon no. 40 [memory].
 */
import { describe, expect, it } from "vitest";
import { BUILT_IN_SHAPES, explainHand } from "../../src/hands/index.ts";
import { HANDBOOK_ROWS } from "../hands/handbooks.ts";
import { line } from "../hands/line.ts";

const KEYS = ["C", "F", "Bb", "Eb", "E"] as const;
const TONICS = { C: 60, F: 65, Bb: 70, Eb: 63, E: 64 } as const;

function fingers(
  chart: string,
  keys: readonly number[],
  hand: "right" | "left" = "right",
  beats = 0.5,
): string {
  const made = line(chart, keys, { hand, beats });
  const account = explainHand(made.notes, made.spans, made.chart, {
    shapes: BUILT_IN_SHAPES,
    evidence: true,
    hand,
  });
  return account.notes.map(({ finger }) => finger).join("");
}

const upAndDown = (keys: readonly number[]) => [...keys, ...[...keys].reverse().slice(1)];

describe("scales and arpeggios on their own chord", () => {
  it.each(HANDBOOK_ROWS.map((row) => [row.name, row] as const))(
    "%s: 95 in 100 as a handbook has it",
    (_, row) => {
      const tonic = row.name.split(" ")[0]!;
      const chord = `${tonic}${row.kind.includes("minor") ? "m" : ""}`;
      for (const chart of [
        `key: ${tonic}\n| ${chord} | ${chord} | ${chord} | ${chord} |`,
        "key: C\n| N.C. |",
      ]) {
        const found = fingers(chart, upAndDown(row.keys), row.hand);
        const [a, b] = [row.a, row.b].map((wanted) => upAndDown([...wanted].map(Number)).join(""));
        const agree = [...found].filter((finger, i) => finger === a![i] || finger === b![i]).length;
        expect(agree / found.length, `${found} for ${a}`).toBeGreaterThanOrEqual(0.95);
      }
    },
  );
});

it("a scale never puts the thumb on a black key, in any key, by either hand, up and down [both handbooks]", () => {
  const thumbs: string[] = [];
  for (const row of HANDBOOK_ROWS.filter(({ kind }) => kind.endsWith("scale"))) {
    const keys = upAndDown(row.keys);
    const found = fingers("key: C\n| N.C. |", keys, row.hand);
    keys.forEach((key, i) => {
      if ([1, 3, 6, 8, 10].includes(key % 12) && found[i] === "1") thumbs.push(row.name);
    });
  }
  expect(thumbs).toEqual([]);
});

describe.each(KEYS)("in %s", (key) => {
  const tonic = TONICS[key];
  const chart = `key: ${key}\nidiom: blues\n| ${key}7 | ${key}7 | ${key}7 | ${key}7 |`;

  it("a chromatic octave: third finger on black keys, thumb on white ones, second after two white keys [Hanon]", () => {
    const keys = upAndDown(Array.from({ length: 13 }, (_, k) => tonic + k));
    const found = fingers(chart, keys, "right", 0.25);
    keys.forEach((pitch, i) => {
      const black = [1, 3, 6, 8, 10].includes(pitch % 12);
      const second = [0, 5].includes(pitch % 12);
      const ends = pitch === tonic || pitch === tonic + 12;
      expect(
        (black ? "3" : second ? (ends ? "12" : "2") : "1").includes(found[i]!),
        `${found} at ${pitch}`,
      ).toBe(true);
    });
  });

  it("the four-finger lick: index on the root, its third, fourth and flat fifth [practice]", () => {
    const lick = [0, 2, 3, 2, 0, -3, 0, 2, 3, 2, 0, -3, 0, 2, 3, 2, 0, -3].map((step) => tonic + step);
    expect(fingers(chart, lick)).toBe("234321234321234321");
  });
});
