/**
 * Engraves scores; runs in a thread of its own. Plain JavaScript, so that the thread starts without the reader of
 * TypeScript: that one would take the engraver's seven megabytes apart and hold on to ten times as much.
 */
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";

const toolkit = new VerovioToolkit(await createModule());

/**
 * @param {{ options: import("verovio/esm").VerovioOptions, scores: readonly string[] }} task MusicXML texts
 * @returns {(string | null)[]} SVG of each; null for what cannot be engraved
 */
export default function engrave({ options, scores }) {
  toolkit.setOptions(options);
  return scores.map((score) => (toolkit.loadData(score) ? toolkit.renderToSVG(1) : null));
}
