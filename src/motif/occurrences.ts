import type { AccountMotif, MotifRelation, MotifViewpoint } from "../account.ts";
import type { MotifFamily } from "./motif-families.ts";
import { follows } from "./salience.ts";
import type { MotifNote, SoloLine } from "./solo-line.ts";
import type { Variant } from "./variants.ts";

export type Occurrence = AccountMotif["occurrences"][number];

/** Lengths of steps count as the same, or as stretched alike, within this share. [practice] */
const SAME_LENGTH = 0.25;

/** The occurrences of an idea in words: where each is, and how it relates to the first plain one. */
export function occurrencesOf(idea: MotifFamily, line: SoloLine): Occurrence[] {
  const model = idea.matches.find((match) => match.kind === "same") ?? idea.matches[0]!;
  const reference = stepsIn(line, model);
  return idea.matches.map((match, i) => {
    const steps = stepsIn(line, match);
    const first = line.notes[line.first[match.start]!]!;
    const last = line.notes[line.last[match.start + match.notes - 1]!]!;
    const shift = match.kind === "same" ? transposition(reference, steps) : null;
    const changes = [
      variantWords(match),
      match.kind === "same" ? plainWords(idea.viewpoint, shift) : "",
      match.kind === "same" && shift !== null && follows(idea.matches[i - 1], match, line) ? "sequence" : "",
      match.notes === model.notes && idea.viewpoint !== "rhythm" ? rhythmWords(reference, steps) : "",
    ];
    return {
      firstNote: first.id,
      lastNote: last.id,
      chorus: first.chorus,
      bar: first.bar,
      beat: first.beat,
      relation: relationOf(idea.viewpoint, match, shift, sameFingers(reference, steps)),
      change: changes.filter((words) => words !== "").join(", "),
      transposition: shift,
      notes: match.notes,
      phrase: first.phrase,
    };
  });
}

function stepsIn(line: SoloLine, match: Variant): MotifNote[] {
  return line.heads.slice(match.start, match.start + match.notes);
}

/** Semitones by which all notes lie above the reference's, or null when they differ. */
function transposition(reference: readonly MotifNote[], steps: readonly MotifNote[]): number | null {
  const shift = steps[0]!.pitch - reference[0]!.pitch;
  return steps.every((step, k) => step.pitch - reference[k]!.pitch === shift) ? shift : null;
}

function sameFingers(reference: readonly MotifNote[], steps: readonly MotifNote[]): boolean {
  return (
    steps.length === reference.length &&
    steps.every((step, k) => step.finger !== null && step.finger === reference[k]!.finger)
  );
}

function relationOf(
  viewpoint: MotifViewpoint,
  match: Variant,
  shift: number | null,
  sameFingering: boolean,
): MotifRelation {
  if (match.kind !== "same") return "varied";
  if (shift === 0) return "exact";
  if (sameFingering) return "same fingering";
  if (shift !== null) return "transposed";
  return viewpoint === "rhythm" ? "rhythm" : "varied";
}

/** What a return that is the same only in its own viewpoint keeps. */
function plainWords(viewpoint: MotifViewpoint, shift: number | null): string {
  if (shift !== null) return "";
  switch (viewpoint) {
    case "degree":
      return "same degrees over another chord";
    case "contour":
      return "same contour";
    case "chromatic interval":
    case "interval and rhythm":
    case "rhythm":
    case "finger":
      return "";
  }
}

function variantWords(match: Variant): string {
  switch (match.kind) {
    case "same":
      return "";
    case "inverted":
      return "inverted";
    case "backwards":
      return "backwards";
    case "along the scale":
      return "moved along the scale";
    case "near":
      return nearWords(match);
  }
}

function nearWords(match: Variant): string {
  switch (match.change) {
    case "none":
      return "";
    case "changed":
      return `note ${match.at} changed`;
    case "added":
      return `a note added after note ${match.at}`;
    case "dropped":
      return `note ${match.at} left out`;
  }
}

/** How the lengths of the steps relate: "" for the same, stretched, shortened, or another rhythm. */
function rhythmWords(reference: readonly MotifNote[], steps: readonly MotifNote[]): string {
  const ratios: number[] = [];
  for (let k = 0; k + 1 < steps.length; k++) {
    const own = lengthOf(steps[k]!, steps[k + 1]!);
    const other = lengthOf(reference[k]!, reference[k + 1]!);
    if (own > 0 && other > 0) ratios.push(own / other);
  }
  const all = (ratio: number) => ratios.every((r) => Math.abs(r / ratio - 1) <= SAME_LENGTH);
  if (all(1)) return "";
  if (all(2)) return "augmented";
  if (all(0.5)) return "diminished";
  return "in another rhythm";
}

/** Quarter-note beats on the chart where there are some, else seconds. */
function lengthOf(a: MotifNote, b: MotifNote): number {
  return a.position !== null && b.position !== null ? b.position - a.position : b.onset - a.onset;
}
