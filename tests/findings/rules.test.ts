import { describe, expect, it } from "vitest";
import { FINDING_HEADINGS } from "../../src/account.ts";
import { allFindings, RULES } from "../../src/findings/index.ts";
import { PRACTICE_KINDS } from "../../src/practice/index.ts";
import { accountOf } from "./account-builder.ts";
import type { RuleCases } from "./cases/case-kit.ts";
import { HARMONIC_CASES } from "./cases/harmonic-cases.ts";
import { KEYBOARD_CASES } from "./cases/keyboard-cases.ts";
import { MOTIVIC_CASES } from "./cases/motivic-cases.ts";
import { NEXT_STEP_CASES, PHRASING_CASES, RANGE_CASES } from "./cases/phrasing-cases.ts";
import { LIMIT_CASES, TIME_CASES } from "./cases/time-cases.ts";

const CASES: RuleCases = {
  ...TIME_CASES,
  ...HARMONIC_CASES,
  ...MOTIVIC_CASES,
  ...PHRASING_CASES,
  ...RANGE_CASES,
  ...KEYBOARD_CASES,
  ...NEXT_STEP_CASES,
  ...LIMIT_CASES,
};

describe("the rules as a handbook", () => {
  it("are at least forty, each with a name of its own", () => {
    expect(RULES.length).toBeGreaterThanOrEqual(40);
    expect(new Set(RULES.map((rule) => rule.id)).size).toBe(RULES.length);
  });

  it("stand under every heading that a teacher writes about, with things that work and things to practise", () => {
    for (const heading of FINDING_HEADINGS) {
      for (const kind of ["works", "practise"] as const) {
        expect(
          RULES.some((rule) => rule.heading === heading && rule.kind === kind),
          `${heading}, ${kind}`,
        ).toBe(true);
      }
    }
  });

  it.each(RULES.map((rule) => [rule.id, rule] as const))(
    "%s gives its reason and never a mark",
    (_, rule) => {
      expect(rule.measure.length).toBeGreaterThan(10);
      expect(rule.reason.length).toBeGreaterThan(15);
      expect(rule.wording.length).toBeGreaterThan(0);
      for (const text of rule.wording) {
        expect(text).not.toMatch(/\b(score|mark|grade|points?|out of ten|bad|wrong|poor|weak|fail)\b/i);
      }
      if (rule.kind === "practise") expect(PRACTICE_KINDS).toContain(rule.practice?.kind);
    },
  );

  it.each(RULES.map((rule) => [rule.id]))("%s has a take that triggers it and a near miss", (id) => {
    expect(CASES[id]).toBeDefined();
  });
});

describe.each(Object.entries(CASES))("%s", (id, { fires, near }) => {
  const rule = RULES.filter((one) => one.id === id);

  it("speaks of the take that shows it, with its evidence", () => {
    const account = accountOf(fires);
    const findings = allFindings(account, rule);
    expect(findings.map((finding) => finding.id)).toEqual([id]);
    const [finding] = findings;
    expect(finding!.text).not.toMatch(/[{}]|undefined|NaN|null/);
    const known = new Set(account.notes.map((note) => note.id));
    for (const note of finding!.evidence) expect(known).toContain(note);
    expect(finding!.evidence.length > 0).toBe(finding!.bars.length > 0);
  });

  it("is silent on a take that falls just short", () => {
    expect(allFindings(accountOf(near), rule)).toEqual([]);
  });

  it("says every variant of its wording in whole sentences", () => {
    for (const wording of rule[0]!.wording) {
      const [finding] = allFindings(accountOf(fires), [{ ...rule[0]!, wording: [wording] }]);
      expect(finding!.text).toMatch(/^[A-Z0-9].*[.?!]$/s);
    }
  });
});
