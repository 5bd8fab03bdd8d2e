import { child, childNumber, childText, descendants, signText, type XmlElement } from "./element.ts";

/** What the head of the document says of a part. */
export interface ListedPart {
  readonly name: string;
  /** General MIDI program, 0 to 127, or null. */
  readonly program: number | null;
}

/** Parts by id, as `<part-list>` names them. */
export function listedParts(root: XmlElement): Map<string, ListedPart> {
  const parts = new Map<string, ListedPart>();
  for (const one of child(root, "part-list")?.children ?? []) {
    if (one.nodeName !== "score-part") continue;
    const id = one.getAttribute("id") ?? "";
    // MIDI programs are counted from 1 in MusicXML.
    const program =
      descendants(one, "midi-instrument").map((midi) => childNumber(midi, "midi-program"))[0] ?? null;
    parts.set(id, {
      name: signText(childText(one, "part-name") ?? id),
      program: program !== null && program >= 1 && program <= 128 ? program - 1 : null,
    });
  }
  return parts;
}

/** Title of the movement, else of the work. */
export function titleOf(root: XmlElement): string | null {
  const work = child(root, "work");
  const title = childText(root, "movement-title") ?? (work === null ? null : childText(work, "work-title"));
  return title === null ? null : signText(title);
}

/** Notice of rights, or null. */
export function rightsOf(root: XmlElement): string | null {
  const identification = child(root, "identification");
  const rights = identification === null ? null : childText(identification, "rights");
  return rights === null ? null : signText(rights);
}
