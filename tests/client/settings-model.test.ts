/** The settings of a take, without a page. */
import { describe, expect, it } from "vitest";
import * as settings from "../../client/take/settings-model.ts";
import { sampleAccount } from "./sample-account.ts";

const account = sampleAccount({ choruses: 1 });
const named = { title: "Kitchen", player: null, date: "2026-03-01T20:00:00Z" };
const first = settings.settingsOf(account, named);

describe("the settings of a take", () => {
  it("begin as it was read, and sent unchanged leave the choices to the program", () => {
    expect(first).toEqual({
      ...{ part: "", staff: "", pattern: "", method: "auto", tempo: "" },
      ...{ title: "Kitchen", player: "", date: "2026-03-01", usualHand: false },
    });
    expect(settings.settingsChange(first, account, { chart: account.chart.text }, {})).toEqual({
      chart: account.chart.text,
      options: { soloPart: null, soloStaff: null, pattern: null, method: "auto", tempo: null },
      title: "Kitchen",
      date: "2026-03-01",
    });
  });

  it("keep a hand beside what is usual already; shapes that are left to the evidence are not kept", () => {
    const usual = { chart: "| C7 |", handSize: "small" as const, shapes: ["octave"] };
    expect(settings.usualWithHand(usual, { shapes: null })).toEqual({ chart: "| C7 |", handSize: "small" });
    expect(settings.usualWithHand({}, { handSize: "large", shapes: [] })).toEqual({
      handSize: "large",
      shapes: [],
    });
  });

  it("are sent as numbers where they are numbers; a name of spaces is none", () => {
    const set = { ...first, staff: "2", pattern: "3", tempo: "112.5", method: "click", title: "  " };
    const sent = settings.settingsChange(set, account, { form: "blues", key: "F" }, { soloHand: "left" });
    expect(sent.options).toMatchObject({
      ...{ soloStaff: 2, pattern: 3, tempo: 112.5, method: "click", soloHand: "left" },
      chartConfirmed: false,
    });
    expect("title" in sent).toBe(false);
  });

  it("confirm a chart that was proposed", () => {
    const proposed = { ...account, chart: { ...account.chart, source: "proposed" as const } };
    expect([settings.isUnconfirmed(account), settings.isUnconfirmed(proposed)]).toEqual([false, true]);
    const sent = settings.settingsChange(first, proposed, { chart: "| F7 |" }, {});
    expect(sent.options).toMatchObject({ chartConfirmed: true });
  });

  it("offer the parts by name, and staves only where there are several", () => {
    expect(settings.partChoices(account)[1]).toEqual(["t1", `Piano, ${account.notes.length} notes`]);
    expect(settings.staffChoices(account)).toBeNull();
    const source = { ...account.source, parts: [{ ...account.source.parts[0]!, staves: 3 }] };
    expect(settings.staffChoices({ ...account, source })!.map(([, words]) => words)).toEqual([
      "chosen by the program",
      "1, the upper one",
      "2, in the middle",
      "3, the lower one",
    ]);
  });

  it("offer the pattern of the file only where the file has patterns", () => {
    expect(settings.hasPatterns(account)).toBe(false);
    const warnings = [{ code: "pattern-chosen", message: "The first of two is read", where: null }];
    expect(settings.hasPatterns({ ...account, warnings })).toBe(true);
  });
});
