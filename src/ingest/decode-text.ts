import { LIMITS } from "./limits.ts";

/**
 * Text of a MIDI file as a person wrote it. The standard names no encoding: the bytes are taken as UTF-8 when they
 * are UTF-8, else as Latin-1.
 *
 * @param raw One character a byte.
 * @example decodeText("Ren\u00c3\u00a9") // "René"
 * @example decodeText("Ren\u00e9") // "René"
 */
export function decodeText(raw: string): string {
  return tidy(isAscii(raw) ? raw : utf8(raw));
}

const strict = new TextDecoder("utf-8", { fatal: true });

function utf8(raw: string): string {
  try {
    return strict.decode(Uint8Array.from(raw, (letter) => letter.charCodeAt(0)));
  } catch {
    return raw;
  }
}

function isAscii(raw: string): boolean {
  for (let i = 0; i < raw.length; i++) if (raw.charCodeAt(i) > 0x7f) return false;
  return true;
}

/** NUL padding and other control characters carry no text; what is longer than any sign is cut. */
function tidy(text: string): string {
  const cut = text.length > LIMITS.textLetters ? `${text.slice(0, LIMITS.textLetters)}…` : text;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to be removed
  return cut.replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, "").trim();
}
