/** Recordings in the browser's own store (IndexedDB), from the first note until the server has them. */
import type { RecordingSettings } from "./record-states.ts";
import type { Recorded } from "./recording.ts";

export interface KeptRecording extends Recorded {
  readonly id: string;
  readonly settings: RecordingSettings;
  /** Milliseconds since 1970 at the start of the count-in. */
  readonly startedAt: number;
  /** Day of the start where it was played. */
  readonly date: string;
  /** Seconds from the start of the count-in to what was heard last. */
  readonly seconds: number;
  /** In free time: seconds from the start at which the player changed to the next chord. */
  readonly changes?: readonly number[];
  /** Why the server did not take it, in words; null when it was not sent yet. */
  readonly refused: string | null;
}

export interface KeptRecordings {
  put(recording: KeptRecording): Promise<void>;
  /** A piece of what the microphone heard; pieces are joined in the order of `part`. */
  putSound(id: string, part: number, sound: Blob): Promise<void>;
  /** Newest first. */
  list(): Promise<KeptRecording[]>;
  /** What the microphone heard; null when there was none. */
  sound(id: string): Promise<File | null>;
  remove(id: string): Promise<void>;
}

const RECORDINGS = "recordings";
const SOUND = "sound";
interface SoundPart {
  readonly recording: string;
  readonly part: number;
  readonly sound: Blob;
}

/** @param factory where to keep; every call fails with an Error in words when the browser has no store */
export function keptRecordings(factory: IDBFactory | undefined = globalThis.indexedDB): KeptRecordings {
  let opened: Promise<IDBDatabase> | null = null;
  const open = () => {
    opened ??= openStore(factory);
    // What failed once (no room, not allowed) may succeed the next time.
    opened.catch(() => {
      opened = null;
    });
    return opened;
  };
  const within = async <T>(mode: IDBTransactionMode, work: (at: IDBTransaction) => () => T): Promise<T> => {
    const at = (await open()).transaction([RECORDINGS, SOUND], mode);
    const result = work(at);
    await new Promise<void>((done, failed) => {
      at.oncomplete = () => done();
      at.onabort = () => failed(at.error ?? new Error("The browser gave up keeping the recording."));
    });
    return result();
  };
  const ofOne = (id: string) => IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);
  return {
    put: (recording) =>
      within("readwrite", (at) => {
        at.objectStore(RECORDINGS).put(recording);
        return () => {};
      }),
    putSound: (id, part, sound) =>
      within("readwrite", (at) => {
        at.objectStore(SOUND).put({ recording: id, part, sound } satisfies SoundPart);
        return () => {};
      }),
    list: () =>
      within("readonly", (at) => {
        const all = at.objectStore(RECORDINGS).getAll() as IDBRequest<KeptRecording[]>;
        return () => all.result.sort((a, b) => b.startedAt - a.startedAt);
      }),
    sound: (id) =>
      within("readonly", (at) => {
        const parts = at.objectStore(SOUND).getAll(ofOne(id)) as IDBRequest<SoundPart[]>;
        return () => joined(parts.result.map(({ sound }) => sound));
      }),
    remove: (id) =>
      within("readwrite", (at) => {
        at.objectStore(RECORDINGS).delete(id);
        at.objectStore(SOUND).delete(ofOne(id));
        return () => {};
      }),
  };
}

function openStore(factory: IDBFactory | undefined): Promise<IDBDatabase> {
  return new Promise((done, failed) => {
    if (!factory) {
      failed(new Error("This browser has no store of its own."));
      return;
    }
    const request = factory.open("ledgerline", 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(RECORDINGS, { keyPath: "id" });
      request.result.createObjectStore(SOUND, { keyPath: ["recording", "part"] });
    };
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error("The browser's store cannot be opened."));
  });
}

/** A recorder's pieces are one file when they are laid end to end. */
function joined(parts: readonly Blob[]): File | null {
  const type = parts[0]?.type ?? "";
  if (parts.length === 0) return null;
  return new File([...parts], `recording.${type.includes("mp4") ? "mp4" : "webm"}`, { type });
}

/** Milliseconds between two writings of a recording under way: little enough is lost in a crash, and writing costs little. */
const PAUSE = 250;

export interface Keeping {
  /** Something was played: it is written at once, or after the pause since the last writing. */
  changed(): void;
  /** Writes now, and is done when it is written. */
  now(): Promise<void>;
}

/**
 * Keeps a recording while it is played.
 *
 * @param snapshot what was played so far
 * @param failed told when the browser does not keep it
 */
export function keeping(
  store: KeptRecordings,
  snapshot: () => KeptRecording,
  failed: (error: unknown) => void,
): Keeping {
  let timer: ReturnType<typeof setTimeout> | null = null;
  let again = false;
  let last: Promise<void> = Promise.resolve();
  // One after the other, so that an older state never comes to lie over a newer one.
  const write = () => {
    last = last.then(() => store.put(snapshot())).catch(failed);
    return last;
  };
  const rest = () => {
    timer = setTimeout(() => {
      timer = null;
      if (!again) return;
      again = false;
      void write();
      rest();
    }, PAUSE);
  };
  return {
    changed() {
      if (timer !== null) {
        again = true;
        return;
      }
      void write();
      rest();
    },
    now() {
      if (timer !== null) clearTimeout(timer);
      timer = null;
      again = false;
      return write();
    },
  };
}

const lockOf = (id: string) => `ledgerline recording ${id}`;

/**
 * Marks a recording as in hand in this window, so that no other one offers or sends it.
 *
 * @returns how to let it go; done when it is free
 */
export function takeInHand(id: string): () => Promise<void> {
  let letGo = () => {};
  const held = new Promise<void>((done) => {
    letGo = done;
  });
  // Without locks (a page from another machine without TLS) two windows may offer the same recording.
  const lock = globalThis.navigator?.locks?.request(lockOf(id), () => held).catch(() => {});
  return async () => {
    letGo();
    await lock;
  };
}

/** The recordings that no window has in hand, and those that one has. */
export async function byHand(
  recordings: readonly KeptRecording[],
): Promise<{ free: KeptRecording[]; inHand: KeptRecording[] }> {
  const held = (await globalThis.navigator?.locks?.query())?.held ?? [];
  const taken = new Set(held.map(({ name }) => name));
  const isTaken = ({ id }: KeptRecording) => taken.has(lockOf(id));
  return { free: recordings.filter((one) => !isTaken(one)), inHand: recordings.filter(isTaken) };
}

/**
 * Done when one of the recordings in hand is let go of. A window that was closed or loaded anew lets go too,
 * a moment after the next one has looked.
 *
 * @param signal ends the waiting; the promise is refused then
 */
export async function oneLetGo(inHand: readonly KeptRecording[], signal: AbortSignal): Promise<void> {
  const { locks } = navigator;
  await Promise.any(inHand.map(({ id }) => locks.request(lockOf(id), { mode: "shared", signal }, () => {})));
}
