import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";
import { collectWarnings, type WarningCollector } from "../warning-collector.ts";
import { decodeXml } from "./decode-xml.ts";
import { listEntries, readEntry } from "./zip.ts";

const TODO = "Export it again as MusicXML, compressed (.mxl) or not (.musicxml).";
const CONTAINER = "META-INF/container.xml";
/** A container is a few lines. */
const CONTAINER_BYTES = 100_000;

/**
 * Takes the score out of a compressed MusicXML file: the first `<rootfile>` that META-INF/container.xml names
 * (MusicXML 4.0, "Compressed .mxl files"). Nothing is written anywhere, so names that lead out of the archive are
 * names like any other. Only the two files that are wanted are unpacked, and only if they are not too large.
 *
 * @throws Problem when the archive is damaged, too large, or holds no score.
 */
export function unpackScore(bytes: Uint8Array, warnings: WarningCollector): Uint8Array {
  if (bytes.length > LIMITS.packedBytes) throw tooLarge(bytes.length);
  const entries = listEntries(bytes);
  const container = entries.find(({ name }) => name === CONTAINER);
  const named =
    container === undefined
      ? null
      : rootFile(decodeXml(readEntry(bytes, container, CONTAINER_BYTES), collectWarnings()));
  const score =
    entries.find(({ name }) => name === named) ??
    entries.find(({ name }) => /^[^/]*\.(musicxml|xml)$/i.test(name));
  if (score === undefined) {
    throw new Problem("no-score-inside", "The compressed file holds no MusicXML score", null, TODO);
  }
  if (score.name !== named) {
    warnings.add(
      "no-container",
      CONTAINER,
      () => `The compressed file does not name its score properly; "${score.name.slice(0, 80)}" was read.`,
    );
  }
  return readEntry(bytes, score, LIMITS.xmlBytes);
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

function tooLarge(bytes: number): Problem {
  return new Problem(
    "file-too-large",
    `The compressed file has ${bytes} bytes; at most ${LIMITS.packedBytes} are read`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}
