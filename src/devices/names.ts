/** Named figures of improvised lines, in the words of the trade. What each is stands at the rule that finds it. */
export const DEVICE_NAMES = [
  "side-slip",
  "third to flat ninth",
  "tritone outline",
  "upper structure",
  "other pentatonic",
  "added passing note",
  "sequence",
  "pedal",
  "chain of approaches",
  "blues turn",
  "answering end",
] as const;

export type DeviceName = (typeof DEVICE_NAMES)[number];
