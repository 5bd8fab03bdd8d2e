/**
 * The embedded store, in a thread of its own: it is a program that works as long as a statement takes, and in the
 * thread that answers requests nobody else would be answered meanwhile.
 */
import { readFileSync } from "node:fs";
import { parentPort, workerData } from "node:worker_threads";
import { PGlite, type Transaction, types } from "@electric-sql/pglite";

export interface StoreSetting {
  /** Null for a store in memory. */
  readonly folder: string | null;
  readonly startParams: readonly string[];
  /** Path of a dump that a new store begins as; null for one made from nothing. */
  readonly begin: string | null;
}

/** What is asked of the store; `transaction` names the one that it belongs to. */
export type StoreQuestion = { readonly id: number } & (
  | {
      readonly ask: "query";
      readonly transaction: number | null;
      readonly text: string;
      readonly values: readonly unknown[];
    }
  | { readonly ask: "script"; readonly text: string }
  | { readonly ask: "begin" | "commit" | "rollback"; readonly transaction: number }
  | { readonly ask: "open" | "close" }
);

/** What is told of an error: never the statement nor its values, which hold names of persons. */
export interface StoreFault {
  readonly name: string;
  readonly message: string;
  readonly stack?: string | undefined;
  readonly code?: string | undefined;
}

export type StoreReply = { readonly id: number } & (
  | { readonly rows: readonly unknown[] }
  | { readonly fault: StoreFault }
);

interface OpenTransaction {
  readonly inside: Transaction;
  /** Ends it; false takes all back. */
  readonly end: (keep: boolean) => void;
  readonly ended: Promise<void>;
}

/** Thrown inside a transaction that is to be taken back. */
const TAKE_BACK = new Error("taken back");

/** Values of statements that are bytes, each for itself: these go as they are. */
const plain = new WeakSet<Uint8Array>();

/**
 * Bytes in lists, and all that come back, go as text. Node's own conversion is many times as fast as the store's, which
 * goes digit by digit.
 */
const BYTES = {
  parsers: {
    [types.BYTEA]: (text: string) => {
      // Memory of its own, which can be handed over as it is.
      const bytes = Buffer.allocUnsafeSlow((text.length - 2) / 2);
      bytes.write(text.slice(2), "hex");
      return bytes;
    },
  },
  serializers: {
    [types.BYTEA]: (bytes: Uint8Array) =>
      plain.has(bytes)
        ? (bytes as unknown as string)
        : `\\x${Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("hex")}`,
  },
};

const { folder, startParams, begin: beginning } = workerData as StoreSetting;
const store = new PGlite({
  ...(folder === null ? {} : { dataDir: folder }),
  startParams: [...startParams],
  ...(beginning === null ? {} : { loadDataDir: new Blob([readFileSync(beginning)]) }),
  ...BYTES,
});
const open = new Map<number, OpenTransaction>();
const port = parentPort!;

port.on("message", (question: StoreQuestion) => {
  answer(question).then(
    (rows) => port.postMessage({ id: question.id, rows } satisfies StoreReply, buffersOf(rows)),
    (error: unknown) => port.postMessage({ id: question.id, fault: faultOf(error) } satisfies StoreReply),
  );
});

async function answer(question: StoreQuestion): Promise<readonly unknown[]> {
  switch (question.ask) {
    case "open":
      await store.waitReady;
      return [];
    case "query": {
      const { transaction, text, values } = question;
      for (const value of values) if (value instanceof Uint8Array) plain.add(value);
      const over = transaction === null ? store : open.get(transaction)!.inside;
      return (await over.query(text, [...values])).rows;
    }
    case "script":
      return (await store.exec(question.text)).at(-1)?.rows ?? [];
    case "begin":
      await begin(question.transaction);
      return [];
    case "commit":
    case "rollback": {
      const { end, ended } = open.get(question.transaction)!;
      open.delete(question.transaction);
      end(question.ask === "commit");
      await ended;
      return [];
    }
    case "close":
      await store.close();
      return [];
  }
}

/** Ends when the transaction has begun: others have to end before it. */
function begin(name: number): Promise<void> {
  return new Promise((begun, failed) => {
    let end: OpenTransaction["end"] = () => {};
    const keep = new Promise<boolean>((done) => {
      end = done;
    });
    const ended = store
      .transaction(async (inside) => {
        open.set(name, { inside, end, ended });
        begun();
        if (!(await keep)) throw TAKE_BACK;
      })
      .catch((error: unknown) => {
        failed(error);
        if (error !== TAKE_BACK) throw error;
      });
    // Whoever ends it hears of it then.
    ended.catch(() => {});
  });
}

/** Memory of the values of rows, which is handed over and not copied. */
function buffersOf(rows: readonly unknown[]): ArrayBuffer[] {
  return rows.flatMap((row) =>
    Object.values(row as object).flatMap((value) =>
      value instanceof Uint8Array ? [value.buffer as ArrayBuffer] : [],
    ),
  );
}

function faultOf(error: unknown): StoreFault {
  if (!(error instanceof Error)) return { name: "Error", message: String(error) };
  const { name, message, stack } = error;
  return { name, message, stack, code: (error as { code?: string }).code };
}
