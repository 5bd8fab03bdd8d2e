/**
 * Zips are read from disk, a file at a time. Held against fflate, which writes them here, and against the words of
 * PKWARE's APPNOTE 6.3.10 where the test writes bytes itself.
 */
import { closeSync, mkdtempSync, openSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import { afterAll, describe, expect, it } from "vitest";
import { listParts, readPart } from "../../server/corpus/zip-file.ts";

const place = mkdtempSync(join(tmpdir(), "zip-file-"));
afterAll(() => rmSync(place, { recursive: true, force: true }));

async function read(zip: Uint8Array): Promise<Record<string, string>> {
  const path = join(place, "one.zip");
  writeFileSync(path, zip);
  const file = openSync(path, "r");
  try {
    const found: Record<string, string> = {};
    for (const part of listParts(file)) {
      const pieces: Uint8Array[] = [];
      for await (const piece of readPart(file, part)) pieces.push(piece);
      found[part.name] = Buffer.concat(pieces).toString("latin1");
    }
    return found;
  } finally {
    closeSync(file);
  }
}

const TEXT = "a line of eighths ".repeat(500);
const FILES = {
  "a.mid": Buffer.from(TEXT),
  "folder/\u017dofie.mid": Buffer.from("short"),
  "empty.mid": Buffer.from(""),
};
const HELD = { "a.mid": TEXT, "folder/\u017dofie.mid": "short", "empty.mid": "" };
const PACKED = zipSync(FILES);

describe("a zip", () => {
  it("gives its files as they were put in, packed or stored", async () => {
    expect(await read(PACKED)).toEqual(HELD);
    expect(await read(zipSync(FILES, { level: 0 }))).toEqual(HELD);
    expect(await read(zipSync({}))).toEqual({});
  });

  it("gives a file of many pieces as it was put in, and none that unfolds to more than it says", async () => {
    // Half of it packs well and half does not (xorshift32, Marsaglia 2003).
    let state = 1;
    const large = Uint8Array.from({ length: 3_300_000 }, (_, i) => {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return i % 2 === 0 ? state : 65;
    });
    const text = Buffer.from(large).toString("latin1");
    for (const level of [0, 6] as const) {
      expect((await read(zipSync({ "large.wav": large }, { level })))["large.wav"] === text).toBe(true);
    }
    const lie = Buffer.from(zipSync({ "large.wav": large }));
    lie.writeUInt32LE(2 ** 21, lie.readUInt32LE(lie.length - 6) + 24);
    await expect(read(lie)).rejects.toThrow("unfolds to more than it says");
  });

  it("is read with a comment behind it (4.3.16) and something before it is refused, since no place is right then", async () => {
    const comment = Buffer.from("of the evening class");
    const zip = Buffer.concat([PACKED, comment]);
    zip.writeUInt16LE(comment.length, PACKED.length - 2);
    expect(await read(zip)).toEqual(HELD);
    await expect(read(Buffer.concat([Buffer.from("before"), PACKED]))).rejects.toThrow();
  });

  it("is read where its numbers stand in the larger fields (4.3.14, 4.3.15, 4.5.3)", async () => {
    expect(await read(inLargeFields(zipSync({ "a.mid": FILES["a.mid"] })))).toEqual({ "a.mid": TEXT });
  });

  it("that is cut off anywhere, or has any byte changed, is refused or gives no more than it states", async () => {
    const small = zipSync({ "a.mid": Buffer.from("short and packed, packed, packed") });
    for (let length = 0; length < small.length; length++) {
      await expect(read(small.subarray(0, length)), `${length} bytes`).rejects.toThrow();
    }
    for (let at = 0; at < small.length; at++) {
      const changed = small.slice();
      changed[at]! ^= 0xff;
      try {
        for (const text of Object.values(await read(changed))) expect(text.length).toBeLessThan(2 ** 20);
      } catch (error) {
        expect((error as Error).message, `byte ${at}`).not.toBe("");
      }
    }
  });
});

/** A zip of one file, its sizes and places moved to where a zip of more than 4 GB has them. */
function inLargeFields(zip: Uint8Array): Buffer {
  const bytes = Buffer.from(zip);
  const end = bytes.length - 22;
  const at = bytes.readUInt32LE(end + 16);
  const listed = bytes.subarray(at, end);
  const extra = Buffer.alloc(28);
  extra.writeUInt16LE(1, 0);
  extra.writeUInt16LE(24, 2);
  extra.writeBigUInt64LE(BigInt(listed.readUInt32LE(24)), 4);
  extra.writeBigUInt64LE(BigInt(listed.readUInt32LE(20)), 12);
  extra.writeBigUInt64LE(BigInt(listed.readUInt32LE(42)), 20);
  for (const field of [20, 24, 42]) listed.writeUInt32LE(0xffffffff, field);
  listed.writeUInt16LE(extra.length, 30);
  const record = Buffer.alloc(56);
  record.writeUInt32LE(0x06064b50, 0);
  record.writeBigUInt64LE(1n, 32);
  record.writeBigUInt64LE(BigInt(listed.length + extra.length), 40);
  record.writeBigUInt64LE(BigInt(at), 48);
  const locator = Buffer.alloc(20);
  locator.writeUInt32LE(0x07064b50, 0);
  locator.writeBigUInt64LE(BigInt(at + listed.length + extra.length), 8);
  const last = bytes.subarray(end);
  last.writeUInt32LE(0xffffffff, 12);
  last.writeUInt32LE(0xffffffff, 16);
  return Buffer.concat([bytes.subarray(0, at), listed, extra, record, locator, last]);
}
