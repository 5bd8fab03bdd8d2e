/** A take that is written and read again gives the same account, note for note: nothing that it uses is lost. */
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { annotatedScore } from "../../src/export/index.ts";
import { scoreOfTake } from "../../src/export/score-of-take.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { readTake } from "../../src/ingest/index.ts";
import { demoAccount, demoBytes, demoChart, demoClass } from "../demo-class.ts";
import { writeMidi } from "./write-midi.ts";

/**
 * What is said of the take, with seconds to a microsecond: sums of floating-point numbers depend on their order. Of
 * several ways to word a finding one is taken by the file's bytes, so words are not compared.
 */
function said(analysis: Analysis): unknown {
  const { source: _, warnings: __, ...rest } = analysis;
  const account = { ...rest, findings: rest.findings.map(({ text: ___, ...finding }) => finding) };
  return JSON.parse(
    JSON.stringify(account, (_key, value: unknown) =>
      typeof value === "number" ? Math.round(value * 1e6) / 1e6 : value,
    ),
  );
}

describe("an annotated score that is read again", () => {
  const notes = [60, 62, 64, 65, 67, 69, 71, 72];
  const written = (fingered: boolean) =>
    `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Solo</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>${notes
      .map((pitch, i) => {
        const step = "CDEFGABC"[i];
        const finger =
          fingered && i === 2
            ? "<notations><technical><fingering font-style='italic'>4</fingering></technical></notations>"
            : "";
        return `<note><pitch><step>${step}</step><octave>${Math.floor(pitch / 12) - 1}</octave></pitch><duration>1</duration><voice>1</voice><type>eighth</type>${finger}</note>`;
      })
      .join("")}</measure></part></score-partwise>`;
  const read = (xml: string) =>
    analyse(new TextEncoder().encode(xml), "key: C major\n| C |", { name: "score.musicxml" });

  it("does not take fingers that were worked out for printed ones", () => {
    const first = read(written(false));
    expect(first.notes.some((note) => note.finger !== null)).toBe(true);
    const score = annotatedScore(first);
    expect(score).toContain('<fingering font-style="italic">');
    expect(read(score).notes.map((note) => note.printedFingers)).toEqual(notes.map(() => undefined));
  });

  it("keeps the printed ones, which another editor may well print in italics", () => {
    const first = read(written(true));
    expect(first.notes[2]!.printedFingers).toEqual([{ finger: 4, substitution: false, alternate: false }]);
    const again = read(annotatedScore(first));
    expect(again.notes.map((note) => note.printedFingers?.[0]?.finger ?? null)).toEqual([
      ...[null, null, 4, null, null, null, null, null],
    ]);
  });
});

describe.each(demoClass.takes)("$id written and read again", (demo) => {
  it("gives the same account", () => {
    const bytes = demoBytes(demo);
    const take = readTake(bytes, { name: demo.file });
    const again =
      take.format === "midi" ? writeMidi(take) : new TextEncoder().encode(writeMusicXml(scoreOfTake(take)));
    const options = { name: demo.file, shapes: [...demo.shapes] };
    expect(said(analyse(again, demoChart(demo), options))).toEqual(said(demoAccount(demo)));
  });
});
