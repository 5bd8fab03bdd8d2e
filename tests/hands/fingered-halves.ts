/**
 * Fingered scores beside the checkout. The points in use were drawn by all of them; a test draws points by one half and
 * holds them against the other.
 */
import { existsSync, readdirSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";

const FOLDER = fileURLToPath(new URL("../../../shared/data/fingered/", import.meta.url));
export const hasFingeredScores = existsSync(FOLDER);

/** Every other keyboard score, by number: the half that the test draws by. */
const DRAWN_BY = new Set(
  ["04", "07", "10", "12", "14", "16", "18", "22", "24"].map((n) => `fingered-${n}.musicxml`),
);

/** Paths of the scores of one half. */
export function halfOfScores(half: "drawn by" | "held out"): string[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith(".musicxml") && DRAWN_BY.has(basename(file)) === (half === "drawn by"))
    .map((file) => `${FOLDER}${file}`);
}
