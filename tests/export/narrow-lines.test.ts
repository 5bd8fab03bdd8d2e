/** Lines of an exercise in a narrow window, as verovio lays them. */
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { beforeAll, describe, expect, test } from "vitest";
import { formChart } from "../../src/chart/index.ts";
import { engravingOptions, inLinesOf, inShortWords } from "../../src/export/engraving.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { LENSES } from "../../src/lens/index.ts";
import { exerciseScore, preparedLesson } from "../../src/practice/index.ts";

let verovio: VerovioToolkit;
beforeAll(async () => {
  verovio = new VerovioToolkit(await createVerovioModule());
});

/** Bars on each line. */
function lines(musicXml: string): number[] {
  const wishes = { width: 680, scale: 38, height: null, ownBreaks: true, hasHead: false };
  verovio.setOptions(engravingOptions(wishes));
  verovio.loadData(musicXml);
  const systems = verovio.renderToSVG(1).split('class="system"').slice(1);
  return systems.map((system) => system.split('class="measure"').length - 1);
}

test("two bars stand on a line, whatever lines the score has itself", () => {
  const lens = LENSES.find(({ id }) => id === "one-idea")!;
  const lesson = preparedLesson({
    ...{ chart: formChart("blues-basic", "F"), level: "intermediate", feel: "swing", lens },
    shapes: BUILT_IN_SHAPES.slice(0, 1),
  });
  const xml = writeMusicXml(exerciseScore(lesson.exercises[0]!));
  expect(lines(xml)).toEqual([4, 2]);
  expect(lines(inLinesOf(xml, 2))).toEqual([2, 2, 2]);
  expect(lines(inLinesOf(inLinesOf(xml, 2), 4))).toEqual([4, 2]);
});

describe("words below short bars", () => {
  const measure = (words: string, print = "") =>
    `<measure number="1">${print}<direction placement="below"><direction-type><words>${words}</words></direction-type></direction></measure>`;
  const long = "index finger on the fifth";
  const part = (bars: string) => `<part>${bars}</part>`;
  const said = (score: string) => [...score.matchAll(/<words>([^<]*)/g)].map(([, words]) => words);

  test("stand on two lines where they would run into the next bar's, and on one where there is room", () => {
    const score = part(measure(long).repeat(4));
    expect(said(inShortWords(score, 600))).toEqual(Array(4).fill("index finger\non the fifth"));
    expect(said(inShortWords(score, 1200))).toEqual(Array(4).fill(long));
    expect(inShortWords(score, 1200)).toBe(score);
  });

  test("stay on one line where the next bar has none, or begins another line", () => {
    const bare = '<measure number="2"></measure>';
    expect(said(inShortWords(part((measure(long) + bare).repeat(2)), 600))).toEqual([long, long]);
    const alone = part(measure(long) + measure(long, '<print new-system="yes"/>'));
    expect(said(inShortWords(alone, 120))).toEqual([long, long]);
  });
});
