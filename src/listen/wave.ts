/**
 * Mono sound as a WAVE file of 16 bits.
 *
 * @param samples -1 to 1; what is louder is cut
 * @param rate samples a second
 */
export function waveBytes(samples: Float32Array, rate: number): Uint8Array<ArrayBuffer> {
  const HEAD = 44;
  const bytes = new Uint8Array(HEAD + 2 * samples.length);
  const view = new DataView(bytes.buffer);
  const letters = (at: number, text: string) => bytes.set(new TextEncoder().encode(text), at);
  letters(0, "RIFF");
  view.setUint32(4, bytes.length - 8, true);
  letters(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  // Linear samples of one channel, two bytes each.
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, rate * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  letters(36, "data");
  view.setUint32(40, 2 * samples.length, true);
  for (let i = 0; i < samples.length; i++) {
    view.setInt16(HEAD + 2 * i, Math.round(32_767 * Math.max(-1, Math.min(1, samples[i]!))), true);
  }
  return bytes;
}
