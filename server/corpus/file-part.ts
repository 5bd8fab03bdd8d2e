/** A file, or a part of one, where it lies on disk: read whole, or a piece at a time. */
import { open } from "node:fs/promises";
import type { PiecedBytes } from "../store/sources.ts";

export interface FilePart extends PiecedBytes {
  read(): Promise<Uint8Array>;
}

/** Bytes that are read at once. */
const AT_ONCE = 2 ** 20;

/** @param at its first byte in the file; size in bytes */
export function filePart(path: string, at: number, size: number): FilePart {
  return {
    size,
    read: async () => {
      const bytes = new Uint8Array(size);
      let done = 0;
      for await (const piece of piecesOf(path, at, size)) {
        bytes.set(piece, done);
        done += piece.length;
      }
      return bytes;
    },
    pieces: () => piecesOf(path, at, size),
  };
}

async function* piecesOf(path: string, at: number, size: number): AsyncGenerator<Uint8Array> {
  const file = await open(path);
  // One for all: many are more than is cleared away meanwhile.
  const held = new Uint8Array(Math.min(size, AT_ONCE));
  try {
    for (let done = 0; done < size; ) {
      const piece = held.subarray(0, Math.min(AT_ONCE, size - done));
      for (let read = 0; read < piece.length; ) {
        const { bytesRead } = await file.read(piece, read, piece.length - read, at + done + read);
        if (bytesRead === 0) throw new Error("an upload is shorter than it was");
        read += bytesRead;
      }
      yield piece;
      done += piece.length;
    }
  } finally {
    await file.close();
  }
}
