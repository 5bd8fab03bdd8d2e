/**
 * The one selection that all pictures share, the reading of the chorus page, and their place in the address. What is
 * pointed at (`hover`, `lit`) passes and is not kept.
 */
export type Selection =
  | { readonly kind: "none" }
  | { readonly kind: "note"; readonly note: string }
  /** `chorus` null: this bar of every chorus. */
  | { readonly kind: "bar"; readonly chorus: number | null; readonly bar: number }
  | { readonly kind: "chorus"; readonly chorus: number }
  | { readonly kind: "motif"; readonly motif: string }
  | { readonly kind: "placement"; readonly placement: string }
  | { readonly kind: "phrase"; readonly phrase: string }
  | { readonly kind: "finding"; readonly finding: string }
  /** Solo notes from one to another, both with it. */
  | { readonly kind: "stretch"; readonly first: string; readonly last: string };

export const NOTHING: Selection = { kind: "none" };

/** What the chorus page shows in its bars. */
export const READINGS = ["role", "line", "hand", "ideas", "time", "register"] as const;
export type ReadingName = (typeof READINGS)[number];

/** What is new in a store. */
export type StoreChange = "selection" | "lit" | "reading" | "hover" | "playing";

export interface SelectionStore {
  readonly selection: Selection;
  /** Note under the pointer, or null. */
  readonly hover: string | null;
  /** Note that sounds now, or null. */
  readonly playing: string | null;
  /** What words elsewhere point at: shown in place of the selection for as long as they do. */
  readonly lit: Selection | null;
  readonly reading: ReadingName;
  select(selection: Selection): void;
  light(selection: Selection | null): void;
  read(reading: ReadingName): void;
  point(note: string | null): void;
  play(note: string | null): void;
  /** Calls `listener` after each change; returns the way to end it. */
  watch(listener: (change: StoreChange) => void): () => void;
}

/** A store that starts with `selection` in `reading`; `mirror` is told each new one, to keep it in the address. */
export function createSelection(
  selection: Selection = NOTHING,
  mirror: (selection: Selection, reading: ReadingName) => void = () => {},
  reading: ReadingName = "role",
): SelectionStore {
  const listeners = new Set<(change: StoreChange) => void>();
  const state = {
    selection,
    reading,
    lit: null as Selection | null,
    hover: null as string | null,
    playing: null as string | null,
  };
  const tell = (change: StoreChange) => {
    for (const listener of listeners) listener(change);
  };
  return {
    get selection() {
      return state.selection;
    },
    get hover() {
      return state.hover;
    },
    get playing() {
      return state.playing;
    },
    get lit() {
      return state.lit;
    },
    get reading() {
      return state.reading;
    },
    select(next) {
      state.lit = null;
      if (same(next, state.selection)) return;
      state.selection = next;
      mirror(next, state.reading);
      tell("selection");
    },
    light(next) {
      if (next === state.lit || (next !== null && state.lit !== null && same(next, state.lit))) return;
      state.lit = next;
      tell("lit");
    },
    read(next) {
      if (next === state.reading) return;
      state.reading = next;
      mirror(state.selection, next);
      tell("reading");
    },
    point(note) {
      if (note === state.hover) return;
      state.hover = note;
      tell("hover");
    },
    play(note) {
      if (note === state.playing) return;
      state.playing = note;
      tell("playing");
    },
    watch(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Selection and reading as a query, "note=n12&reading=hand"; the first reading goes without saying. */
export function placeQuery(selection: Selection, reading: ReadingName): string {
  const read = reading === "role" ? "" : `reading=${reading}`;
  return [selectionQuery(selection), read].filter(Boolean).join("&");
}

/** The reading that a query states; the first where it states none. */
export function readReading(query: URLSearchParams): ReadingName {
  return READINGS.find((name) => name === query.get("reading")) ?? "role";
}

/** The selection as a query, "note=n12", "bar=2.5" (chorus 2, bar 5), "bar=5"; "" for none. */
export function selectionQuery(selection: Selection): string {
  switch (selection.kind) {
    case "none":
      return "";
    case "note":
      return `note=${encodeURIComponent(selection.note)}`;
    case "bar":
      return `bar=${selection.chorus === null ? "" : `${selection.chorus}.`}${selection.bar}`;
    case "chorus":
      return `chorus=${selection.chorus}`;
    case "motif":
      return `motif=${encodeURIComponent(selection.motif)}`;
    case "placement":
      return `placement=${encodeURIComponent(selection.placement)}`;
    case "phrase":
      return `phrase=${encodeURIComponent(selection.phrase)}`;
    case "finding":
      return `finding=${encodeURIComponent(selection.finding)}`;
    case "stretch":
      return `notes=${encodeURIComponent(`${selection.first}~${selection.last}`)}`;
  }
}

/** The selection that a query states; none when it states none or cannot be read. */
export function readSelection(query: URLSearchParams): Selection {
  const bar = /^(?:(\d+)\.)?(-?\d+)$/.exec(query.get("bar") ?? "");
  if (bar) return { kind: "bar", chorus: bar[1] ? Number(bar[1]) : null, bar: Number(bar[2]) };
  const [first, last] = (query.get("notes") ?? "").split("~");
  if (first && last) return { kind: "stretch", first, last };
  const chorus = Number(query.get("chorus"));
  if (chorus > 0) return { kind: "chorus", chorus };
  for (const kind of ["note", "motif", "placement", "phrase", "finding"] as const) {
    const id = query.get(kind);
    if (id) return { kind, [kind]: id } as Selection;
  }
  return NOTHING;
}

function same(a: Selection, b: Selection): boolean {
  return a.kind === b.kind && selectionQuery(a) === selectionQuery(b);
}
