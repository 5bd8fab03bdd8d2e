import { signatureMovedBy, usualSteps } from "../../pitch/index.ts";
import { counted } from "../../words/index.ts";
import type { BarEvent } from "./bar-content.ts";
import { child, childNumber, childText, descendants, type XmlElement } from "./element.ts";
import { readAttributes } from "./interfaces.ts";
import { meterOf } from "./note-parts.ts";
import { finite, type PartState } from "./part-state.ts";

/** What `<attributes>` states: divisions, staves and transposition go into the part, key and meter into the bar. */
export function attributeEvents(part: PartState, element: XmlElement, where: string): BarEvent[] {
  const attributes = readAttributes(element);
  const divisions = finite(attributes.divisions) ?? 0;
  if (divisions > 0) part.divisions = divisions;
  part.staves = Math.max(part.staves, Math.min(16, finite(attributes.staves) ?? 1));
  transpose(part, attributes.transposes ?? []);
  const events = keyEvents(part, child(element, "key"), where);
  const meter = meterOf(child(element, "time"));
  if (meter !== null) events.push({ kind: "meter", ...meter });
  if (descendants(element, "measure-repeat").some((one) => one.getAttribute("type") === "start")) {
    part.warnings.add(
      "bar-repeat-signs",
      where,
      () =>
        "Signs that repeat a bar were not played out; bars are read with the notes that the file gives them.",
    );
  }
  return events;
}

function transpose(
  part: PartState,
  transposes: NonNullable<ReturnType<typeof readAttributes>["transposes"]>,
): void {
  for (const { chromatic, diatonic, octaveChange, number } of transposes) {
    const octaves = Number.parseInt(octaveChange ?? "", 10) || 0;
    const semitones = Math.round(Number.parseFloat(chromatic ?? "")) || 0;
    const letters = finite(Number.parseInt(diatonic ?? "", 10));
    const steps = letters !== null && (letters !== 0 || semitones === 0) ? letters : usualSteps(semitones);
    part.transpositions.set(finite(number) ?? 0, {
      steps: steps + 7 * octaves,
      semitones: semitones + 12 * octaves,
    });
  }
}

function keyEvents(part: PartState, element: XmlElement | null, where: string): BarEvent[] {
  if (element === null) return [];
  const fifths = childNumber(element, "fifths");
  if (fifths === null || Math.abs(fifths) > 7) {
    part.warnings.add(
      "unusual-key",
      where,
      (times) => `${counted(times, "key signature")} of an unusual kind was left out.`,
    );
    return [];
  }
  const stated = childText(element, "mode");
  const mode = stated === "minor" || stated === "aeolian" ? "minor" : "major";
  part.key = { fifths, mode };
  const moved = fifths + signatureMovedBy(part.transpositions.get(0)?.semitones ?? 0);
  // Beyond seven signs the enharmonic key is meant.
  return [{ kind: "key", mode, fifths: moved > 7 ? moved - 12 : moved < -7 ? moved + 12 : moved }];
}
