import { type Finger, INFERRED_FINGERS, type PrintedFinger } from "../../take/index.ts";
import { child, descendants, type XmlElement } from "./element.ts";

export interface WrittenFinger extends PrintedFinger {
  readonly italic: boolean;
}

const NO_FINGERS: readonly WrittenFinger[] = [];

/**
 * The fingering that counts as printed: all of it, but in a score whose heading says that fingers in italics were
 * worked out (as our own annotated scores do) only what is upright.
 */
export function printedFingers(
  root: XmlElement,
): (written: readonly WrittenFinger[]) => readonly PrintedFinger[] {
  const identification = child(root, "identification");
  const fields = identification === null ? [] : descendants(identification, "miscellaneous-field");
  const inferred = fields.some(
    (field) =>
      field.getAttribute("name") === INFERRED_FINGERS.name &&
      field.textContent.trim() === INFERRED_FINGERS.text,
  );
  return (written) =>
    written.length === 0
      ? NO_FINGERS
      : written.flatMap(({ italic, ...finger }) => (inferred && italic ? [] : [finger]));
}

/**
 * Printed fingering of a note, in order: several marks, several figures in one mark, and changes of finger on a held
 * key. musicxml-interfaces keeps only the last mark and its first figure, so the marks are read from the element.
 *
 * @example // <fingering>2-3</fingering>: 2, then 3 as substitution
 */
export function fingeringOf(note: XmlElement): readonly WrittenFinger[] {
  const fingers: WrittenFinger[] = [];
  for (const mark of descendants(note, "fingering")) {
    const text = mark.textContent.trim();
    const substitution = mark.getAttribute("substitution") === "yes";
    const alternate = mark.getAttribute("alternate") === "yes";
    const italic = mark.getAttribute("font-style") === "italic";
    let joined = false;
    for (const figure of text.matchAll(/([^0-9]*)([1-5])(?![0-9])/g)) {
      const between = figure[1]!;
      fingers.push({
        finger: Number(figure[2]) as Finger,
        substitution: substitution || (joined && /[-\u2010-\u2014_]/.test(between)),
        alternate: alternate || /[(/[]/.test(between),
        italic,
      });
      joined = true;
    }
  }
  return fingers.length === 0 ? NO_FINGERS : fingers;
}
