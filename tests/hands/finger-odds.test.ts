/** How likely fingers are, held against the sum over every fingering of a short line, written out one by one. */
import { describe, expect, it } from "vitest";
import { handEvents } from "../../src/hands/events.ts";
import { expectedMet } from "../../src/hands/finger-odds.ts";
import { fillFingers } from "../../src/hands/finger-path.ts";
import { isPracticable } from "../../src/hands/finger-spans.ts";
import { type Joined, joinSteps, pathSteps, threeCost } from "../../src/hands/finger-steps.ts";
import { PATH_WEIGHTS } from "../../src/hands/line-weights.ts";
import { ownPoints } from "../../src/hands/own-points.ts";
import { line } from "./line.ts";

/** What the likelihoods are softened by, as the sources state it. */
const SURENESS = 0.7;

function joined(pitches: Parameters<typeof line>[1], beats = 0.5): Joined {
  const { notes, spans } = line("key: C\n| C |", pitches, { beats });
  const events = handEvents(
    notes,
    notes.map((_, i) => i),
    "right",
    spans,
  );
  const free = events.map((event) => event.keys.map(() => null));
  return joinSteps(
    pathSteps(events, free, PATH_WEIGHTS, ownPoints(events, PATH_WEIGHTS.costs)),
    PATH_WEIGHTS,
  );
}

/** By enumeration: every row of grips, as likely as its points make it. */
function writtenOut({ steps, pairsAt, links, bounds }: Joined): number[][] {
  const sums = steps.map(({ grips }) => grips.map(() => 0));
  let all = 0;
  const choose = (grips: readonly number[], points: number): void => {
    const i = grips.length;
    if (i === steps.length) {
      const odds = Math.exp(-SURENESS * points);
      all += odds;
      grips.forEach((grip, k) => {
        sums[k]![grip]! += odds;
      });
      return;
    }
    for (let c = 0; c < steps[i]!.grips.length; c++) {
      let more = steps[i]!.own[c]!;
      if (i > 0) more += links[pairsAt[i]! + grips[i - 1]! * steps[i]!.grips.length + c]!;
      if (i > 1 && bounds[i]! > 0) {
        const [e, p] = [grips[i - 2]!, grips[i - 1]!];
        more += bounds[i]! * threeCost(PATH_WEIGHTS.costs, steps[i - 2]!, e, steps[i - 1]!, p, steps[i]!, c);
      }
      choose([...grips, c], points + more);
    }
  };
  choose([], 0);
  return sums.map((row) => row.map((sum) => sum / all));
}

describe("how likely a finger is", () => {
  it.each([
    ["a line", [60, 64, 65, 69, 66], 0.5],
    ["a line with a chord", [60, [64, 67], 65, 62], 0.5],
    ["a slow line, half free", [72, 70, 61, 63], 2.2],
  ] as const)("is the share of all fingerings that have it: %s", (_, pitches, beats) => {
    const asked = joined(pitches, beats);
    const met = expectedMet(asked, PATH_WEIGHTS.costs);
    writtenOut(asked).forEach((row, i) => {
      if (asked.steps[i]!.moment.keys.length > 1) return;
      row.forEach((share, c) => {
        expect(met[asked.gripsAt[i]! + c]).toBeCloseTo(share, 8);
      });
    });
  });
});

describe("the likeliest fingers note by note", () => {
  it("are played one after the other: no finger on two keys in a row, none out of reach", () => {
    // Lines within a tenth, in even eighth notes, as a player reads them; one finger on two keys breaks a line. [practice]
    const turns = [4, -3, 7, -5, 2, 9, -8, 3, -6, 5, -2, -7, 8, 1, -4];
    const lines = Array.from({ length: 12 }, (_, k) => {
      let at = 55 + k;
      return turns.map((by) => {
        at += by;
        return at;
      });
    });
    // Lines of leaps in which the likeliest fingers, each taken for itself, leave a finger on two keys or out of reach.
    lines.push([61, 58, 53, 56, 57, 64, 65, 72], [66, 74, 79, 77, 79, 78, 75, 80]);
    lines.push([68, 67, 60, 53, 54, 61, 55, 62], [71, 79, 70, 72, 66, 63, 57, 61]);
    for (const pitches of lines) {
      const { steps } = joined(pitches);
      const events = steps.map(({ event }) => event);
      const fingers = fillFingers(
        events,
        events.map(() => [null]),
      ).map(([finger]) => finger!);
      for (let i = 1; i < pitches.length; i++) {
        const [a, b] = [fingers[i - 1]!, fingers[i]!];
        expect(a === b, `${pitches[i - 1]} to ${pitches[i]} by ${a}`).toBe(false);
        expect(isPracticable(a, pitches[i - 1]!, b, pitches[i]!)).toBe(true);
      }
    }
  });
});
