/** A note at least this certain is relied on: findings rest on such notes, and a recording is told by their share. */
export const SURE = 0.8;

/** Notes that a keyboard sent or that are printed have no certainty, and are sure. */
export function isSure(note: { readonly certainty?: number | undefined }): boolean {
  return (note.certainty ?? 1) >= SURE;
}
