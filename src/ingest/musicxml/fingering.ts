import type { Finger, PrintedFinger } from "../../take/index.ts";
import { descendants, type XmlElement } from "./element.ts";

const NO_FINGERS: readonly PrintedFinger[] = [];

/**
 * Printed fingering of a note, in order: several marks, several figures in one mark, and changes of finger on a held
 * key. musicxml-interfaces keeps only the last mark and its first figure, so the marks are read from the element.
 *
 * @example // <fingering>2-3</fingering>: 2, then 3 as substitution
 */
export function fingeringOf(note: XmlElement): readonly PrintedFinger[] {
  const fingers: PrintedFinger[] = [];
  for (const mark of descendants(note, "fingering")) {
    const text = mark.textContent.trim();
    const substitution = mark.getAttribute("substitution") === "yes";
    const alternate = mark.getAttribute("alternate") === "yes";
    let joined = false;
    for (const figure of text.matchAll(/([^0-9]*)([1-5])(?![0-9])/g)) {
      const between = figure[1]!;
      fingers.push({
        finger: Number(figure[2]) as Finger,
        substitution: substitution || (joined && /[-\u2010-\u2014_]/.test(between)),
        alternate: alternate || /[(/[]/.test(between),
      });
      joined = true;
    }
  }
  return fingers.length === 0 ? NO_FINGERS : fingers;
}
