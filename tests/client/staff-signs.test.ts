import { describe, expect, it } from "vitest";
import { ROLE_MARKS, staffSign } from "../../client/draw/role-marks.ts";
import { partHead } from "../../src/export/score-head.ts";

describe("signs as noteheads", () => {
  it("are told apart without colour, as short notes and as long ones", () => {
    for (const long of [false, true]) {
      const drawn = ROLE_MARKS.map(({ role }) => JSON.stringify(staffSign(role, long, 10)));
      expect(new Set(drawn).size).toBe(ROLE_MARKS.length);
    }
  });

  // A quarter note's head is filled and a half note's is open: any primer of notation. [practice]
  it("are filled while the note is shorter than a half note, and open from there on", () => {
    for (const role of ["root", "third", "fifth", "seventh", "avoid", "blue"] as const)
      expect([staffSign(role, false, 10).filled, staffSign(role, true, 10).filled]).toEqual([true, false]);
    expect(staffSign("tension", false, 10).d).not.toBe(staffSign("tension", true, 10).d);
  });
});

describe("the head of a score", () => {
  const direction = (inside: string) => `<direction placement="above">${inside}</direction>`;
  const tempo = direction(
    "<metronome><beat-unit>quarter</beat-unit><per-minute>66.4</per-minute></metronome>",
  );
  const swing = direction("<direction-type><words>Swing</words></direction-type>");
  const words = direction("<direction-type><words>call</words></direction-type>");

  it("is taken out of the first bar and said in one line; other words stay", () => {
    const score = `<measure number="1">${tempo}${swing}${words}</measure><measure number="2">${tempo}</measure>`;
    expect(partHead(score)).toEqual({
      head: "Swing, ♩ = 66",
      rest: `<measure number="1">${words}</measure><measure number="2">${tempo}</measure>`,
    });
    expect(partHead("<score-partwise/>")).toEqual({ head: "", rest: "<score-partwise/>" });
  });
});
