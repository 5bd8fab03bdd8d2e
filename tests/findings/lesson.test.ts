import { describe, expect, it } from "vitest";
import { goalSchema } from "../../src/account.ts";
import { findFindings, NO_FEEDBACK, shownFindings } from "../../src/findings/index.ts";
import { accountOf } from "./account-builder.ts";
import { talk } from "./cases/case-kit.ts";

const account = accountOf({
  notes: talk(),
  over: {
    options: { goals: [goalSchema.parse({ text: "Leave room", check: { kind: "rests", least: 0.9 } })] },
  },
});
const analysis = { ...account, findings: findFindings(account) };

describe("what a reader of a take is shown", () => {
  it("is every finding, goals first, where nobody has added anything", () => {
    const shown = shownFindings(analysis, NO_FEEDBACK);
    expect(shown[0]!.id).toBe("goal-1");
    expect(shown.map((one) => one.id).sort()).toEqual(analysis.findings.map((one) => one.id).sort());
  });

  it("is what the teacher made of it: hidden ones gone, own words in place, own remarks under their kind", () => {
    const [, first, second] = analysis.findings;
    const shown = shownFindings(analysis, {
      ...NO_FEEDBACK,
      hidden: [first!.id],
      edited: { [second!.id]: "In my words." },
      added: [{ kind: "notice", text: "Sit further back." }],
    });
    expect(shown.map((one) => one.id)).not.toContain(first!.id);
    expect(shown.find((one) => one.id === second!.id)!.text).toBe("In my words.");
    expect(shown.at(-1)).toMatchObject({ kind: "notice", text: "Sit further back.", evidence: [] });
  });
});
