/** Exercises as engraved pictures, without a browser. */
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { type Exercise, exerciseScore } from "../../src/findings/index.ts";

/** Width of the music in CSS pixels, and the size of the staff in percent: four bars of eighths to a line. */
const WIDTH = 900;
const SCALE = 38;

let engraver: Promise<VerovioToolkit> | null = null;

/** SVG text by exercise id; an exercise that cannot be engraved is left out. */
export async function stavesOf(exercises: readonly Exercise[]): Promise<Record<string, string>> {
  engraver ??= createModule().then((module) => new VerovioToolkit(module));
  const toolkit = await engraver;
  toolkit.setOptions({
    scale: SCALE,
    pageWidth: Math.round((WIDTH * 100) / SCALE),
    pageHeight: 60_000,
    adjustPageHeight: true,
    pageMarginLeft: 20,
    pageMarginRight: 20,
    pageMarginTop: 30,
    pageMarginBottom: 20,
    breaks: "auto",
    header: "none",
    footer: "none",
    svgViewBox: true,
    svgRemoveXlink: true,
    svgHtml5: false,
    spacingLinear: 0.2,
  });
  return Object.fromEntries(
    exercises.flatMap((exercise) =>
      toolkit.loadData(writeMusicXml(exerciseScore(exercise)))
        ? [[exercise.id, toolkit.renderToSVG(1)] as const]
        : [],
    ),
  );
}
