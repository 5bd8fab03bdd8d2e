/** Random numbers from a seed: 0 up to, not including, 1; the same seed gives the same row on every machine. */
export type Chance = () => number;

/** mulberry32 (public domain, T. Ettinger). */
export function chanceFrom(seed: number): Chance {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
