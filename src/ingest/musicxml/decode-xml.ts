import { Problem } from "../../take/index.ts";
import type { WarningCollector } from "../warning-collector.ts";

/**
 * Bytes of an XML document as text: by byte-order mark, by the zero bytes of UTF-16, else by the encoding that the
 * declaration names (XML 1.0, appendix F). UTF-8 that is none is read as Latin-1, which older programs wrote without
 * saying so.
 *
 * @throws Problem when the declaration names an encoding that is not known here.
 */
export function decodeXml(bytes: Uint8Array, warnings: WarningCollector): string {
  const [a, b] = [bytes[0], bytes[1]];
  if (a === 0xfe && b === 0xff) return decode(bytes, "utf-16be");
  if (a === 0xff && b === 0xfe) return decode(bytes, "utf-16le");
  if (a === 0 && b !== 0) return decode(bytes, "utf-16be");
  if (a !== 0 && b === 0) return decode(bytes, "utf-16le");
  const opening = decode(bytes.subarray(0, 200), "latin1");
  const stated =
    /^(?:ï»¿)?\s*<\?xml[^>]*?encoding\s*=\s*["']([\w.:-]{1,40})["']/.exec(opening)?.[1] ?? "utf-8";
  // A declaration that could be read as single bytes cannot be in UTF-16.
  const label = /^(utf-?16|ucs-?2)/i.test(stated) ? "utf-8" : stated;
  const decoder = decoderOf(label);
  try {
    return decoder.decode(bytes);
  } catch {
    warnings.add(
      "wrong-encoding",
      null,
      () =>
        `The file is not written in ${label} as it should be; it was read as Latin-1. Check accented letters.`,
    );
    return decode(bytes, "latin1");
  }
}

/** Throws a `Problem` for an encoding that is not known here. */
function decoderOf(label: string) {
  try {
    return new TextDecoder(label, { fatal: true });
  } catch {
    throw new Problem(
      "unknown-encoding",
      `The file says that it is written in "${label}", which is not known here`,
      "line 1",
      "Save it as UTF-8.",
    );
  }
}

function decode(bytes: Uint8Array, label: string): string {
  return new TextDecoder(label).decode(bytes);
}
