/** A take as one HTML file: words, pictures, exercises, script, styles and fonts inside; it opens without a network. */
import type { Lesson } from "../../src/findings/index.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { practiceSheet } from "../../src/practice/index.ts";
import { standaloneAssets } from "../standalone/assets.ts";
import { stavesOf } from "./staves.ts";

/** Nothing may be asked for, and nothing sent. */
const POLICY =
  "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; font-src data:; img-src data: blob:; base-uri 'none'; form-action 'none'";

/** @param shapes all shapes that the take was explained by (built-in and the teacher's own) */
export async function lessonHtml(
  material: Pick<Lesson, "take" | "analysis" | "feedback">,
  shapes: readonly HandShape[],
): Promise<string> {
  const sheet = practiceSheet(material.analysis, shapes);
  const [{ script, styles }, staves] = await Promise.all([standaloneAssets(), stavesOf(sheet.exercises)]);
  const lesson: Lesson = { ...material, sheet, staves };
  return [
    "<!doctype html>",
    '<html lang="en">',
    "<head>",
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${POLICY}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    `<title>${asText(lesson.take.title)}</title>`,
    '<link rel="icon" href="data:,">',
    `<style>${styles.replace(/<\/style/gi, "<\\/style")}</style>`,
    "</head>",
    "<body>",
    '<div id="app"></div>',
    "<noscript>This page draws its pictures with its own script. Please allow it for this file.</noscript>",
    `<script type="application/json" id="lesson">${asData(lesson)}</script>`,
    `<script>${script.replace(/<\/script/gi, "<\\/script")}</script>`,
    "</body>",
    "</html>",
    "",
  ].join("\n");
}

/** No text of a take can end the element that it stands in. */
function asData(value: unknown): string {
  return JSON.stringify(value).replace(/</g, "\\u003c");
}

function asText(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;");
}
