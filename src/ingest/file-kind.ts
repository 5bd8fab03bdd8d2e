import { Problem } from "../take/index.ts";

export type FileKind = "midi" | "packed" | "musicxml" | "heard";

const TODO = "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).";

/**
 * Tells what a file is by its first bytes: `MThd` (also behind a RIFF header), the zip signature `PK`, or an opening
 * angle bracket in any encoding.
 *
 * @throws Problem when the file is empty or nothing that is read here.
 */
export function kindOfFile(bytes: Uint8Array, name: string): FileKind {
  if (bytes.length === 0) throw new Problem("empty-file", `${name} is empty`, null, TODO);
  if (isMidi(bytes)) return "midi";
  const start = latin(bytes, 0, 160);
  if (start.includes("MThd")) return "midi";
  if (start.startsWith("PK")) return "packed";
  if (start.startsWith('{"heard":"piano"')) return "heard";
  // Skips byte-order marks, the zero bytes of UTF-16 and leading space.
  // biome-ignore lint/suspicious/noControlCharactersInRegex: zero bytes are half of each letter in UTF-16
  if (/^(?:\u00ef\u00bb\u00bf|\u00fe\u00ff|\u00ff\u00fe)?[\u0000\s]*</.test(start)) return "musicxml";
  throw new Problem("unknown-file", `${name} is ${guess(start)}`, "byte 0", TODO);
}

function isMidi([a, b, c, d]: Uint8Array): boolean {
  return a === 0x4d && b === 0x54 && c === 0x68 && d === 0x64;
}

/** Well-known openings, so that the message can say what was chosen by mistake. */
const OPENINGS: readonly (readonly [RegExp, string])[] = [
  [/^%PDF/, "a PDF file, a picture of a score without its notes"],
  [/^ID3|^\u00ff[\u00f2-\u00fb]/, "an MP3 recording"],
  [/^RIFF....WAVE/s, "a WAVE recording"],
  [/^fLaC/, "a FLAC recording"],
  [/^OggS/, "an Ogg recording"],
  [/^....ftyp/s, "an MPEG-4 recording"],
  [/^\u0089PNG|^\u00ff\u00d8\u00ff|^GIF8/, "a picture"],
];

function guess(start: string): string {
  const known = OPENINGS.find(([opening]) => opening.test(start));
  return known === undefined
    ? "neither a MIDI nor a MusicXML file"
    : `${known[1]}, neither MIDI nor MusicXML`;
}

function latin(bytes: Uint8Array, from: number, to: number): string {
  return String.fromCharCode(...bytes.subarray(from, to));
}
