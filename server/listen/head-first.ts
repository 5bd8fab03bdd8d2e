/**
 * Telephones write an MPEG-4 file's table of contents (box `moov`) behind its sound (`mdat`), where a decoder that reads
 * from the start must hold all of it before it can begin, and then hands out half an hour at once. Here the table goes
 * before the sound, with its places moved by its own length. ISO/IEC 14496-12: boxes are a length of four bytes, a name
 * of four, and their content; a length of 1 says that eight bytes of length follow, 0 that the box goes to the end.
 */
interface Box {
  readonly name: string;
  readonly start: number;
  readonly content: number;
  readonly end: number;
}

/** Boxes on the way from the table of contents to the places of its sound. */
const WAY = new Set(["trak", "mdia", "minf", "stbl"]);

/** @returns the bytes in parts, in the order in which they are to be decoded; as they are where nothing is to be moved */
export function headFirst(bytes: Uint8Array): readonly Uint8Array[] {
  const boxes = boxesIn(viewOf(bytes), 0, bytes.length);
  const sound = boxes.find(({ name }) => name === "mdat");
  const table = boxes.find(({ name }) => name === "moov");
  if (sound === undefined || table === undefined || table.start < sound.start) return [bytes];
  const moved = bytes.slice(table.start, table.end);
  movePlaces(viewOf(moved), table.content - table.start, moved.length, {
    by: moved.length,
    before: table.start,
  });
  return [
    bytes.subarray(0, sound.start),
    moved,
    bytes.subarray(sound.start, table.start),
    bytes.subarray(table.end),
  ];
}

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

function boxesIn(view: DataView, from: number, to: number): Box[] {
  const boxes: Box[] = [];
  for (let start = from; start + 8 <= to; ) {
    const short = view.getUint32(start);
    const wide = short === 1 && start + 16 <= to;
    const length = wide ? Number(view.getBigUint64(start + 8)) : short === 0 ? to - start : short;
    const content = start + (wide ? 16 : 8);
    // What is cut off or broken is left to the decoder, which says so.
    if (start + length < content || start + length > to) break;
    const name = String.fromCharCode(...[4, 5, 6, 7].map((i) => view.getUint8(start + i)));
    boxes.push({ name, start, content, end: start + length });
    start += length;
  }
  return boxes;
}

/** Moves every place in a table of contents that lies before a byte of the file (`stco`, of four bytes each, and `co64`). */
function movePlaces(
  view: DataView,
  from: number,
  to: number,
  move: { readonly by: number; readonly before: number },
): void {
  for (const { name, content, end } of boxesIn(view, from, to)) {
    if (WAY.has(name)) movePlaces(view, content, end, move);
    if (name !== "stco" && name !== "co64") continue;
    const size = name === "stco" ? 4 : 8;
    // Version and flags, then how many there are.
    for (let at = content + 8; at + size <= end; at += size) {
      const place = size === 4 ? view.getUint32(at) : Number(view.getBigUint64(at));
      if (place >= move.before) continue;
      if (size === 8) view.setBigUint64(at, BigInt(place + move.by));
      else view.setUint32(at, place + move.by);
    }
  }
}
