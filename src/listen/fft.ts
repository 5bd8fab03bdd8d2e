/**
 * The power spectrum of a real frame, by the fast Fourier transform: two halves of the frame are taken as the real
 * and the imaginary part of one complex transform of half the length, which is then unpicked.
 * Cooley & Tukey 1965, radix 2, in place.
 */
export interface Transform {
  /** Samples of a frame, a power of two. */
  readonly size: number;
  /**
   * Squared magnitudes of the bins 0 to size / 2, without scaling.
   *
   * @param frame `size` samples
   * @param into `size / 2 + 1` numbers
   */
  power(frame: Float64Array, into: Float64Array): void;
}

/** @param size samples of a frame: a power of two, at least 4 */
export function createTransform(size: number): Transform {
  if (size < 4 || (size & (size - 1)) !== 0) throw new RangeError(`${size} is no power of two from 4 on`);
  const half = size / 2;
  const reversed = bitReversal(half);
  const cosines = Float64Array.from({ length: half }, (_, k) => Math.cos((2 * Math.PI * k) / size));
  const sines = Float64Array.from({ length: half }, (_, k) => -Math.sin((2 * Math.PI * k) / size));
  const real = new Float64Array(half);
  const imaginary = new Float64Array(half);
  return {
    size,
    power(frame, into) {
      for (let i = 0; i < half; i++) {
        const from = 2 * reversed[i]!;
        real[i] = frame[from]!;
        imaginary[i] = frame[from + 1]!;
      }
      transform(real, imaginary, cosines, sines);
      unpick(real, imaginary, cosines, sines, into);
    },
  };
}

function bitReversal(length: number): Uint32Array {
  const bits = Math.log2(length);
  return Uint32Array.from({ length }, (_, i) => {
    let turned = 0;
    for (let bit = 0; bit < bits; bit++) turned |= ((i >> bit) & 1) << (bits - 1 - bit);
    return turned;
  });
}

/** In place, on values in bit-reversed order. The turning factors are those of twice the length. */
function transform(
  real: Float64Array,
  imaginary: Float64Array,
  cosines: Float64Array,
  sines: Float64Array,
): void {
  const length = real.length;
  for (let span = 1; span < length; span *= 2) {
    const step = length / span;
    for (let k = 0; k < span; k++) {
      const c = cosines[k * step]!;
      const s = sines[k * step]!;
      for (let low = k; low < length; low += 2 * span) {
        const high = low + span;
        const r = real[high]! * c - imaginary[high]! * s;
        const i = real[high]! * s + imaginary[high]! * c;
        real[high] = real[low]! - r;
        imaginary[high] = imaginary[low]! - i;
        real[low] = real[low]! + r;
        imaginary[low] = imaginary[low]! + i;
      }
    }
  }
}

/** The transform of the even samples and that of the odd ones are the two symmetric parts of what was made. */
function unpick(
  real: Float64Array,
  imaginary: Float64Array,
  cosines: Float64Array,
  sines: Float64Array,
  into: Float64Array,
): void {
  const half = real.length;
  into[0] = (real[0]! + imaginary[0]!) ** 2;
  into[half] = (real[0]! - imaginary[0]!) ** 2;
  for (let k = 1; k < half; k++) {
    const mirror = half - k;
    const evenReal = (real[k]! + real[mirror]!) / 2;
    const evenImaginary = (imaginary[k]! - imaginary[mirror]!) / 2;
    const oddReal = (imaginary[k]! + imaginary[mirror]!) / 2;
    const oddImaginary = (real[mirror]! - real[k]!) / 2;
    const r = evenReal + oddReal * cosines[k]! - oddImaginary * sines[k]!;
    const i = evenImaginary + oddReal * sines[k]! + oddImaginary * cosines[k]!;
    into[k] = r * r + i * i;
  }
}
