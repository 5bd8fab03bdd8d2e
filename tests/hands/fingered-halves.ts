/** Fingered scores beside the checkout, in two halves: the one that the weights were drawn by, and the one held out. */
import { existsSync, readdirSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";

const FOLDER = fileURLToPath(new URL("../../../shared/data/fingered/", import.meta.url));
export const hasFingeredScores = existsSync(FOLDER);

/** Every other keyboard score, by number: the half on which `LINE_FINGERING` was drawn towards the published weights. */
const FITTED = new Set(
  ["04", "07", "10", "12", "14", "16", "18", "22", "24"].map((n) => `fingered-${n}.musicxml`),
);

export function isFitted(file: string): boolean {
  return FITTED.has(basename(file));
}

/** Paths of the scores that nothing was fitted to. */
export function heldOutScores(): string[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith(".musicxml") && !isFitted(file))
    .map((file) => `${FOLDER}${file}`);
}
