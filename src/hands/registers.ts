import type { PlacedNote } from "../take/index.ts";

/** Registers of the keyboard from C to B, by the number of their octave; the lowest and highest take what lies beyond. */
const REGISTERS: readonly { readonly name: string; readonly low: number; readonly high: number }[] = [
  { name: "bass", low: 21, high: 47 },
  { name: "below middle C", low: 48, high: 59 },
  { name: "from middle C", low: 60, high: 71 },
  { name: "an octave above middle C", low: 72, high: 83 },
  { name: "two octaves above middle C", low: 84, high: 95 },
  { name: "top", low: 96, high: 108 },
];

/** Notes in each register; those with none were never visited. */
export function registersOf(
  notes: readonly PlacedNote[],
): { name: string; low: number; high: number; notes: number }[] {
  return REGISTERS.map((register, k) => {
    const low = k === 0 ? 0 : register.low;
    const high = k === REGISTERS.length - 1 ? 127 : register.high;
    return { ...register, notes: notes.filter(({ pitch }) => pitch >= low && pitch <= high).length };
  });
}
