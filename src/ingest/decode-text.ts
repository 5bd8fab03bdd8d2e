import { LIMITS } from "./limits.ts";

/**
 * Text of a MIDI file as a person wrote it. The standard names no encoding: the bytes are taken as UTF-8 when they
 * are UTF-8, else as Latin-1.
 *
 * @example decodeText(Uint8Array.of(0x52, 0xc3, 0xaa)) // "Rê"
 * @example decodeText(Uint8Array.of(0x52, 0xea)) // "Rê"
 */
export function decodeText(bytes: Uint8Array): string {
  try {
    return tidy(UTF8.decode(bytes));
  } catch {
    return tidy(LATIN1.decode(bytes));
  }
}

const UTF8 = new TextDecoder("utf-8", { fatal: true });
const LATIN1 = new TextDecoder("latin1");

/** NUL padding and other control characters carry no text; what is longer than any sign is cut. */
function tidy(text: string): string {
  const cut = text.length > LIMITS.textLetters ? `${text.slice(0, LIMITS.textLetters)}…` : text;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to be removed
  return cut.replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, "").trim();
}
