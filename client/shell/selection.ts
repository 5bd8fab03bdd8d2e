/**
 * The one selection that all pictures share, and its place in the address. What is pointed at (`hover`) passes and is
 * not kept.
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

export interface SelectionStore {
  readonly selection: Selection;
  /** Note under the pointer, or null. */
  readonly hover: string | null;
  /** Note that sounds now, or null. */
  readonly playing: string | null;
  select(selection: Selection): void;
  point(note: string | null): void;
  play(note: string | null): void;
  /** Calls `listener` after each change; returns the way to end it. */
  watch(listener: (change: "selection" | "hover" | "playing") => void): () => void;
}

/** A store that starts with `selection`; `mirror` is told each new selection, to keep it in the address. */
export function createSelection(
  selection: Selection = NOTHING,
  mirror: (selection: Selection) => void = () => {},
): SelectionStore {
  const listeners = new Set<(change: "selection" | "hover" | "playing") => void>();
  const state = { selection, hover: null as string | null, playing: null as string | null };
  const tell = (change: "selection" | "hover" | "playing") => {
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
    select(next) {
      if (same(next, state.selection)) return;
      state.selection = next;
      mirror(next);
      tell("selection");
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
