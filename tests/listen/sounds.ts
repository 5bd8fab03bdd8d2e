/** Sounds that tests are made of, by adding sines: nothing here was recorded. */

/** A sine of amplitude 1. */
export function tone(hertz: number, seconds: number, rate = 16_000): Float32Array {
  return Float32Array.from({ length: Math.round(seconds * rate) }, (_, i) =>
    Math.sin((2 * Math.PI * hertz * i) / rate),
  );
}
