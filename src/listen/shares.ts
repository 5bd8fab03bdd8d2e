/** Probabilities of half an hour of sound, held small: whole numbers count in the largest that their type holds. */
export type Shares = Float32Array | Uint16Array | Uint8Array;

/** What stands for 1 in such an array. */
export function wholeOf(shares: Shares): number {
  if (shares instanceof Float32Array) return 1;
  return 2 ** (8 * shares.BYTES_PER_ELEMENT) - 1;
}

/** Puts probabilities into their place; what is less than 0 or more than 1 is cut. */
export function putShares(into: Shares, said: Float32Array, at: number): void {
  const whole = wholeOf(into);
  const fine = into instanceof Float32Array;
  for (let i = 0; i < said.length; i++) {
    const share = Math.min(1, Math.max(0, said[i]!)) * whole;
    into[at + i] = fine ? share : Math.round(share);
  }
}
