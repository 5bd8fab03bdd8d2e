/** A solo over a chart whose key changes on its way: what is not the chord's follows the key of its bar. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { annotatedScore } from "../../src/export/index.ts";
import { midiOf } from "../findings/line-midi.ts";
import { labelled } from "./notation.ts";

/** A chart that goes from D flat major (five flats) to A major (three sharps), and a solo over it. */
const overBoth = (bars: string, solo: string) =>
  labelled(`${bars.replace("key", "\nkey: A\n")} // ${solo}`, { key: "Db" }).labels;

describe("labels over a chart that changes key", () => {
  it("spell by the key of their own bar where no chord sounds", () => {
    // Five flats name the black keys D flat, E flat, G flat; three sharps C sharp, D sharp, F sharp. [practice]
    const labels = overBoth("N.C. | key N.C. |", "Db4@1 Gb4@2 Ab4@3 | C#4@1 F#4@2 G#4@3");
    expect(labels.map(({ spelling }) => spelling)).toEqual(["Db4", "Gb4", "Ab4", "C#4", "F#4", "G#4"]);
  });

  it("hear notes without a chord against the tonic of their own bar", () => {
    const labels = overBoth("N.C. | key N.C. |", "Db4@1 A4@2 | Db4@1 A4@2");
    expect(labels.map(({ role }) => role)).toEqual(["root", "outside", "third", "root"]);
  });

  it("take the scale that the chord has in the key of its bar", () => {
    // E flat over Ebm7: a Dorian II in D flat. G over D major seventh, IV in A: foreign to Lydian. [lit: Nettles & Graf, memory]
    const labels = overBoth("Ebm7 | key Dmaj7 |", "C5@1 | G#4@1 G4@2");
    expect(labels.map(({ degree }) => degree)).toEqual(["13", "#11", "11"]);
    expect(labels.map(({ role }) => role)).toEqual(["avoid", "tension", "outside"]);
  });

  it("call a note blue by the key of its own bar", () => {
    const text = "F7 | F7 |\nkey: C\n C7 | C7 // Ab4@1 | Eb4@1 | Ab4@1 | Eb4@1";
    const { labels } = labelled(text, { key: "F", idiom: "blues" });
    expect(labels.map(({ blueInKey }) => blueInKey)).toEqual([true, false, false, true]);
  });
});

describe("what is drawn of a chart that changes key", () => {
  const chart = "key: F\nidiom: standard\n| Fmaj7 | C7 |\nkey: D\n| Dmaj7 | A7 |";
  const solo = [65, 69, 72, 67, 66, 69, 74, 73];
  const account = analyse(midiOf(solo, 2), chart, { name: "change.mid", tempo: 120 });

  it("says in each bar in which key it stands, and prints it in the chart's text", () => {
    expect(account.chart.bars.map(({ key }) => key)).toEqual(["F", "F", "D", "D"]);
    expect(account.chart.text).toMatch(/key: F\n(.*\n)+\| Fmaj7 \| C7 \|\nkey: D\n\| Dmaj7 \| A7 \|/);
  });

  it("changes the signature of the score with it, in every chorus", () => {
    const signatures = [...annotatedScore(account).matchAll(/<fifths>(-?\d)/g)].map(([, one]) => Number(one));
    // F major has one flat, D major two sharps.
    expect(signatures.slice(0, 2)).toEqual([-1, 2]);
  });
});
