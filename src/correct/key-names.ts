import { type KeyName, keyboardName, signatureOf } from "../pitch/index.ts";

/**
 * Names for the keys that corrections speak of: as most of the account's notes on a key are spelled, of equally many
 * spellings as the earliest is; a key that no note has by the signature of the chart's key.
 *
 * @example keyNames([{ pitch: 63, spelling: "Eb4" }], { tonic: "C", mode: "major" })(63) // "Eb4"
 */
export function keyNames(
  notes: readonly { readonly pitch: number; readonly spelling: string }[],
  key: KeyName,
): (pitch: number) => string {
  const sharps = signatureOf(key) > 0;
  return (pitch) => {
    const times = new Map<string, number>();
    for (const note of notes)
      if (note.pitch === pitch) times.set(note.spelling, (times.get(note.spelling) ?? 0) + 1);
    let [best, most] = [keyboardName(pitch, sharps ? "sharps" : "flats"), 0];
    for (const [spelling, count] of times) if (count > most) [best, most] = [spelling, count];
    return best;
  };
}
