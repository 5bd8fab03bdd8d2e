/** The table of contents of an MPEG-4 file, moved before its sound; boxes by ISO/IEC 14496-12. */
import { describe, expect, it } from "vitest";
import { headFirst } from "../../server/listen/head-first.ts";

const four = (value: number) => [24, 16, 8, 0].map((shift) => (value >>> shift) & 255);
const box = (name: string, ...content: number[]) => [
  ...four(8 + content.length),
  ...[...name].map((letter) => letter.charCodeAt(0)),
  ...content,
];

const HEAD = box("ftyp", ...new Array(8).fill(1));
/** Twelve bytes of sound in two places. */
const SOUND = box("mdat", 10, 11, 12, 13, 14, 15, 20, 21, 22, 23, 24, 25);
const [FIRST, SECOND] = [HEAD.length + 8, HEAD.length + 14];

const table = (places: number[]) =>
  box("moov", ...box("trak", ...box("mdia", ...box("minf", ...box("stbl", ...places)))));
const short = (...places: number[]) =>
  box("stco", 0, 0, 0, 0, ...four(places.length), ...places.flatMap(four));
const long = (...places: number[]) =>
  box("co64", 0, 0, 0, 0, ...four(places.length), ...places.flatMap((place) => [...four(0), ...four(place)]));

const joined = (parts: readonly Uint8Array[]) => parts.flatMap((part) => [...part]);

describe("a table of contents behind the sound", () => {
  it.each([
    ["of short places", short],
    ["of long places", long],
  ])("%s goes before it, and its places find the same bytes", (_name, places) => {
    const behind = table(places(FIRST, SECOND));
    const after = box("free", 7);
    const moved = joined(headFirst(Uint8Array.from([...HEAD, ...SOUND, ...behind, ...after])));
    expect(moved).toEqual([
      ...HEAD,
      ...table(places(FIRST + behind.length, SECOND + behind.length)),
      ...SOUND,
      ...after,
    ]);
    expect(moved.slice(FIRST + behind.length, FIRST + behind.length + 2)).toEqual([10, 11]);
    expect(moved.slice(SECOND + behind.length, SECOND + behind.length + 2)).toEqual([20, 21]);
  });
});

describe("a file is left as it is", () => {
  const same = (bytes: number[]) => expect(joined(headFirst(Uint8Array.from(bytes)))).toEqual(bytes);

  it("where the table stands before the sound", () => same([...HEAD, ...table(short(90, 96)), ...SOUND]));
  it("where there is none", () => same([...HEAD, ...SOUND]));
  it("where the table is cut off", () => same([...HEAD, ...SOUND, ...table(short(FIRST)).slice(0, -3)]));
});
