import { unzipSync } from "fflate";
import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";
import { collectNotices, type Notices } from "../notices.ts";
import { decodeXml } from "./decode-xml.ts";

const TODO = "Export it again as MusicXML, compressed (.mxl) or not (.musicxml).";
const CONTAINER = "META-INF/container.xml";

/**
 * Takes the score out of a compressed MusicXML file: the first `<rootfile>` that META-INF/container.xml names
 * (MusicXML 4.0, "Compressed .mxl files"). Nothing is written anywhere, so names that lead out of the archive are
 * names like any other. Only the two files that are wanted are unpacked, and only if they are not too large.
 *
 * @throws Problem when the archive is damaged, too large, or holds no score.
 */
export function unpackScore(bytes: Uint8Array, notices: Notices): Uint8Array {
  if (bytes.length > LIMITS.packedBytes) throw tooLarge(`${bytes.length} bytes`);
  const names: string[] = [];
  const container = extract(bytes, (name) => {
    names.push(name);
    if (names.length > LIMITS.packedFiles) throw tooLarge(`more than ${LIMITS.packedFiles} files`);
    return name === CONTAINER;
  }).get(CONTAINER);
  const named = container === undefined ? null : rootFile(decodeXml(container, collectNotices()));
  const wanted = named !== null && names.includes(named) ? named : fallback(names);
  if (wanted === null) {
    throw new Problem("no-score-inside", "The compressed file holds no MusicXML score", null, TODO);
  }
  if (wanted !== named) {
    notices.add(
      "no-container",
      CONTAINER,
      () => `The compressed file does not name its score properly; "${wanted}" was read.`,
    );
  }
  const score = extract(bytes, (name) => name === wanted).get(wanted);
  if (score === undefined)
    throw new Problem("no-score-inside", `"${wanted}" cannot be unpacked`, wanted, TODO);
  return score;
}

function extract(bytes: Uint8Array, wants: (name: string) => boolean): Map<string, Uint8Array> {
  try {
    const files = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        if (!wants(name)) return false;
        if (originalSize > LIMITS.xmlBytes) throw tooLarge(`${originalSize} bytes in "${name}"`);
        return true;
      },
    });
    return new Map(Object.entries(files));
  } catch (error) {
    if (error instanceof Problem) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw new Problem("damaged-archive", `The compressed file is damaged: ${reason}`, null, TODO);
  }
}

/** The container is read by pattern: it is a few lines, and only one attribute of it counts. */
function rootFile(container: string): string | null {
  const path = /<rootfile\b[^>]*?\bfull-path\s*=\s*(?:"([^"]*)"|'([^']*)')/.exec(container.slice(0, 65_536));
  if (path === null) return null;
  return (path[1] ?? path[2] ?? "")
    .replace(/&(lt|gt|quot|apos|amp);/g, (_, name: keyof typeof XML_ENTITIES) => XML_ENTITIES[name])
    .replace(/^\//, "");
}

const XML_ENTITIES = { lt: "<", gt: ">", quot: '"', apos: "'", amp: "&" } as const;

function fallback(names: readonly string[]): string | null {
  return names.find((name) => /^[^/]*\.(musicxml|xml)$/i.test(name)) ?? null;
}

function tooLarge(what: string): Problem {
  return new Problem(
    "file-too-large",
    `The compressed file has ${what}`,
    null,
    "Cut it into takes of a few minutes.",
  );
}
