/**
 * Accounts on their way to readers. What a key names never changes, so the accounts that were read last are held, and
 * many readers of one account share one copy; which key a take has is asked of the store every time.
 */
import { promisify } from "node:util";
import { gunzip } from "node:zlib";
import type { Database } from "./database.ts";
import { inBatches } from "./in-batches.ts";

/** Bytes of accounts that are held, packed (some 55 KB each) and opened (some 700 KB each). */
const PACKED_ROOM = 8 * 2 ** 20;
const OPENED_ROOM = 24 * 2 ** 20;
/** Takes that are looked up by one statement, and accounts that are read by one. */
const TAKES_AT_ONCE = 200;
const ACCOUNTS_AT_ONCE = 8;

/** An account as it is kept, or would be. */
export interface KeptAccount {
  /** Hash of all that it follows from; null for one that nobody asks for again. */
  readonly key: string | null;
  /** JSON, compressed by gzip. */
  readonly packed: Uint8Array;
  /** The JSON, UTF-8. Opened beside the thread that answers, and once for all who read it meanwhile. */
  open(): Promise<Uint8Array>;
}

export interface Accounts {
  /** The account of a take as it is now; null when there is no such take. */
  of(take: string): Promise<KeptAccount | null>;
  /** Lets go of what is held. */
  forget(): void;
}

export function createAccounts(database: Database): Accounts {
  const packed = new Shelf<Uint8Array>(PACKED_ROOM);
  const opened = new Shelf<Promise<Uint8Array>>(OPENED_ROOM);
  const keyOf = inBatches(async (takes) => {
    const rows = await database.query<{ id: string; key: string }>(
      "select id, analysis as key from takes where id = any($1::text[]) and deleted_at is null",
      [takes],
    );
    return new Map(rows.map(({ id, key }) => [id, key]));
  }, TAKES_AT_ONCE);
  const read = inBatches(async (keys) => {
    const rows = await database.query<{ key: string; account: Uint8Array }>(
      "select key, account from analyses where key = any($1::text[])",
      [keys],
    );
    for (const { key, account } of rows) packed.put(key, account, account.length);
    return new Map(rows.map(({ key, account }) => [key, account]));
  }, ACCOUNTS_AT_ONCE);
  const openOnce = (key: string, bytes: Uint8Array) => {
    const known = opened.get(key);
    if (known !== undefined) return known;
    const text = unpack(bytes);
    opened.put(key, text, sizeOpened(bytes));
    text.catch(() => opened.drop(key));
    return text;
  };
  return {
    of: async (take) => {
      for (let before: string | null = null; ; ) {
        const key = await keyOf(take);
        // An account that is not there was swept away, since its take has another one by now: so that one is asked for.
        if (key === null || key === before) return null;
        const bytes = packed.get(key) ?? (await read(key));
        if (bytes !== null) return { key, packed: bytes, open: () => openOnce(key, bytes) };
        before = key;
      }
    },
    forget: () => {
      packed.clear();
      opened.clear();
    },
  };
}

/** @param packed JSON, compressed by gzip */
export function keptAccount(key: string | null, packed: Uint8Array): KeptAccount {
  return { key, packed, open: () => unpack(packed) };
}

const unpack: (packed: Uint8Array) => Promise<Uint8Array> = promisify(gunzip);

/** Size of what was packed, as its last four bytes tell it (RFC 1952, 2.3.1: ISIZE). */
function sizeOpened(packed: Uint8Array): number {
  return new DataView(packed.buffer, packed.byteOffset, packed.length).getUint32(packed.length - 4, true);
}

/** Values that were used last, as many as there is room for. */
class Shelf<Value> {
  readonly #held = new Map<string, { readonly value: Value; readonly size: number }>();
  readonly #most: number;
  #size = 0;

  constructor(most: number) {
    this.#most = most;
  }

  get(key: string): Value | undefined {
    const one = this.#held.get(key);
    if (one === undefined) return undefined;
    // A map hands out its keys in the order in which they were put in.
    this.#held.delete(key);
    this.#held.set(key, one);
    return one.value;
  }

  put(key: string, value: Value, size: number): void {
    this.drop(key);
    this.#held.set(key, { value, size });
    this.#size += size;
    for (const oldest of this.#held.keys()) {
      if (this.#size <= this.#most) break;
      this.drop(oldest);
    }
  }

  drop(key: string): void {
    this.#size -= this.#held.get(key)?.size ?? 0;
    this.#held.delete(key);
  }

  clear(): void {
    this.#held.clear();
    this.#size = 0;
  }
}
