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

function read(zip: Uint8Array): Record<string, string> {
  const path = join(place, "one.zip");
  writeFileSync(path, zip);
  const file = openSync(path, "r");
  try {
    return Object.fromEntries(
      listParts(file).map((part) => [part.name, Buffer.from(readPart(file, part)).toString("latin1")]),
    );
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
  it("gives its files as they were put in, packed or stored", () => {
    expect(read(PACKED)).toEqual(HELD);
    expect(read(zipSync(FILES, { level: 0 }))).toEqual(HELD);
    expect(read(zipSync({}))).toEqual({});
  });

  it("is read with a comment behind it (4.3.16) and something before it is refused, since no place is right then", () => {
    const comment = Buffer.from("of the evening class");
    const zip = Buffer.concat([PACKED, comment]);
    zip.writeUInt16LE(comment.length, PACKED.length - 2);
    expect(read(zip)).toEqual(HELD);
    expect(() => read(Buffer.concat([Buffer.from("before"), PACKED]))).toThrow();
  });

  it("is read where its numbers stand in the larger fields (4.3.14, 4.3.15, 4.5.3)", () => {
    expect(read(inLargeFields(zipSync({ "a.mid": FILES["a.mid"] })))).toEqual({ "a.mid": TEXT });
  });

  it("that is cut off anywhere, or has any byte changed, is refused or gives no more than it states", () => {
    const small = zipSync({ "a.mid": Buffer.from("short and packed, packed, packed") });
    for (let length = 0; length < small.length; length++) {
      expect(() => read(small.subarray(0, length)), `${length} bytes`).toThrow();
    }
    for (let at = 0; at < small.length; at++) {
      const changed = small.slice();
      changed[at]! ^= 0xff;
      try {
        for (const text of Object.values(read(changed))) expect(text.length).toBeLessThan(2 ** 20);
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
