/** Bytes of a track that the standard forbids and that damaged or careless files have all the same. */
import { counted } from "../../words/index.ts";
import type { WarningCollector } from "../warning-collector.ts";

/** Bytes that follow a system common message; real-time messages have none (MIDI 1.0, "System Messages"). */
const SYSTEM_DATA: ReadonlyMap<number, number> = new Map([
  [0xf1, 1],
  [0xf2, 2],
  [0xf3, 1],
]);

/** Bytes of data that follow the status byte of a system message. */
export function systemDataOf(status: number): number {
  return SYSTEM_DATA.get(status) ?? 0;
}

/** Says that a system message in a track, where none may stand, is skipped. */
export function warnOfStray(track: number, at: number, warnings: WarningCollector): void {
  warnings.add(
    "stray-system-bytes",
    `track ${track}, byte ${at}`,
    (times) =>
      `${counted(times, "system message")} that has no place in a file ${times === 1 ? "was" : "were"} skipped.`,
  );
}

/** Says that data bytes lost their top bit. */
export function warnOfMasked(track: number, at: number, bytes: number, warnings: WarningCollector): void {
  warnings.add(
    "data-byte-masked",
    `track ${track}, byte ${at}`,
    (times) =>
      `${counted(times, "data byte")} above 127 ${times === 1 ? "was" : "were"} read without the top bit.`,
    bytes,
  );
}

/**
 * The data of a channel message some of whose bytes are no data bytes: real-time bytes between them are skipped, and
 * one byte above 127 loses its top bit. Packed, so that nothing is built: the first byte, the second times 128, and
 * the bytes read times 16384; -1 where it is beyond mending.
 */
export function mendedData(
  file: Uint8Array,
  at: number,
  end: number,
  { wanted, track }: { readonly wanted: number; readonly track: number },
  warnings: WarningCollector,
): number {
  let packed = 0;
  let masked = 0;
  let read = 0;
  let from = at;
  for (; read < wanted && from < end; from++) {
    const byte = file[from]!;
    if (byte >= 0xf8 && byte < 0xff) continue;
    if (byte >= 0x80) masked++;
    // A loudness of nothing would make the note's beginning its end.
    const data = byte === 0x80 ? 1 : byte & 0x7f;
    packed += data * (read === 0 ? 1 : 128);
    read++;
  }
  if (read < wanted || masked > 1 || (masked > 0 && wanted < 2)) return -1;
  if (masked > 0) warnOfMasked(track, at, masked, warnings);
  else warnOfStray(track, at, warnings);
  return packed + (from - at) * 16384;
}
