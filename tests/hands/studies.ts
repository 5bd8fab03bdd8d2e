/**
 * Which fingered scores are studies. A score is a study where it says so: in its titles and credits, or in the column
 * of composers of a MANIFEST.tsv beside it, stands a word for one (study, étude, exercise, estudio), or
 * an author known for books of studies. Every other score is a piece; inventions, preludes and sonatinas are pieces.
 */
import { existsSync, readFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";

const WORDS = /(?:^|[^\p{L}])(?:stud(?:y|ies)|[eé]tudes?|et[uü]den?|exercises?|estudios?)(?![\p{L}])/iu;

/** Authors whose keyboard works in teaching are books of studies [memory]. */
const AUTHORS = /czerny|hanon|burgm[uü]ller|duvernoy|loeschhorn|lemoine|k[oö]hler|heller|cramer/i;

const NAMED =
  /<(work-title|movement-title|creator|credit-words|source)\b[^>]*>([^<]*)<\/(?:work-title|movement-title|creator|credit-words|source)>/g;

/** True where the score at this path is a study, by the rule above. `text`: its MusicXML, or null where compressed. */
export function isStudy(path: string, text: string | null): boolean {
  const named = [...(text ?? "").matchAll(NAMED)].map((found) => found[2]!);
  return [...named, listedComposer(path)].some((words) => WORDS.test(words) || AUTHORS.test(words));
}

/** The composer that a MANIFEST.tsv in the score's folder names for it; empty where there is none. */
function listedComposer(path: string): string {
  const manifest = join(dirname(path), "MANIFEST.tsv");
  if (!existsSync(manifest)) return "";
  const [head, ...rows] = readFileSync(manifest, "utf8")
    .split("\n")
    .map((row) => row.split("\t"));
  const [id, composer] = [head!.indexOf("id"), head!.indexOf("composer")];
  const name = basename(path).replace(/\.[^.]*$/, "");
  return rows.find((row) => row[id] === name)?.[composer] ?? "";
}
