/**
 * Each line role by textbook example: what is one, and what only looks like one. Definitions of the non-chord tones
 * are those of Kostka & Payne, Tonal Harmony [memory]; enclosures and approach notes those of Coker, Elements of the
 * Jazz Language, Ligon, Connecting Chords with Linear Harmony, and Levine, The Jazz Theory Book [memory].
 */
import { describe, expect, it } from "vitest";
import { LINE_ROLES } from "../../src/harmony/index.ts";
import { asked } from "../harmony/notation.ts";
import { AT_REST } from "./line-role-at-rest.ts";
import { AT_THE_CHANGE } from "./line-role-at-the-change.ts";
import { BY_STEP } from "./line-role-by-step.ts";
import { INTO_A_TARGET } from "./line-role-into-a-target.ts";

const RULES = [...AT_THE_CHANGE, ...INTO_A_TARGET, ...BY_STEP, ...AT_REST];

it("every line role has its examples, in order of precedence", () => {
  expect(RULES.map(({ role }) => role)).toEqual(LINE_ROLES);
});

describe.each(RULES)("line role: $role ($source)", ({ role, is, isNot }) => {
  it.each(is)("$text is one: $why", ({ text, setting, to, manner }) => {
    const label = asked(text, setting);
    expect(label.lineRole).toBe(role);
    if (to !== undefined) expect(label.leadsTo).toBe(to);
    if (manner !== undefined) expect(label.manner).toBe(manner);
  });
  it.each(isNot)("$text is none: $why", (row) => {
    expect(asked(row.text, row.setting).lineRole).toBe(row.role);
    expect(row.role).not.toBe(role);
  });
  it("has at least three examples of either kind", () => {
    expect(is.length).toBeGreaterThanOrEqual(3);
    expect(isNot.length).toBeGreaterThanOrEqual(3);
  });
});
