/** Openings of sound files, what each is called, and how its name ends. Videos are taken for their sound. */
const OPENINGS: readonly (readonly [RegExp, string, string])[] = [
  [/^(?:RIFF|RF64).{4}WAVE/s, "WAVE", "wav"],
  [/^ID3|^\u00ff[\u00fa\u00fb\u00f2\u00f3]/, "MP3", "mp3"],
  [/^fLaC/, "FLAC", "flac"],
  [/^OggS/, "Ogg", "ogg"],
  [/^.{4}ftyp/s, "MPEG-4", "m4a"],
  [/^\u00ff[\u00f0\u00f1\u00f8\u00f9]/, "AAC", "aac"],
  [/^FORM.{4}AIF[FC]/s, "AIFF", "aiff"],
  [/^caff/, "CAF", "caf"],
  [/^#!AMR/, "AMR", "amr"],
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the first byte of the container is one
  [/^\u001aE\u00df\u00a3/, "WebM", "webm"],
];

/** What kind of recording a file is, told by its first bytes; null when it is none. */
export function soundKind(bytes: Uint8Array): string | null {
  return openingOf(bytes)?.[1] ?? null;
}

/** How the name of a recording ends that begins with these bytes, without the point; null when it is none. */
export function soundEnding(bytes: Uint8Array): string | null {
  return openingOf(bytes)?.[2] ?? null;
}

function openingOf(bytes: Uint8Array) {
  const start = String.fromCharCode(...bytes.subarray(0, 16));
  return OPENINGS.find(([opening]) => opening.test(start));
}
