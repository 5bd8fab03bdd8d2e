/** Openings of sound files, and what each is called. Videos are taken for their sound. */
const OPENINGS: readonly (readonly [RegExp, string])[] = [
  [/^(?:RIFF|RF64).{4}WAVE/s, "WAVE"],
  [/^ID3|^\u00ff[\u00fa\u00fb\u00f2\u00f3]/, "MP3"],
  [/^fLaC/, "FLAC"],
  [/^OggS/, "Ogg"],
  [/^.{4}ftyp/s, "MPEG-4"],
  [/^\u00ff[\u00f0\u00f1\u00f8\u00f9]/, "AAC"],
  [/^FORM.{4}AIF[FC]/s, "AIFF"],
  [/^caff/, "CAF"],
  [/^#!AMR/, "AMR"],
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the first byte of the container is one
  [/^\u001aE\u00df\u00a3/, "WebM"],
];

/** What kind of recording a file is, told by its first bytes; null when it is none. */
export function soundKind(bytes: Uint8Array): string | null {
  const start = String.fromCharCode(...bytes.subarray(0, 16));
  return OPENINGS.find(([opening]) => opening.test(start))?.[1] ?? null;
}
