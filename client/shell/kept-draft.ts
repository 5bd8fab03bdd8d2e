/** What is half written outlives a reload and the way back; it is gone with the window, since a tablet is shared. */

export interface KeptDraft<Draft> {
  /** What was written before; null for nothing. */
  read(): Draft | null;
  /** Null takes it out: it is kept elsewhere, or done with. */
  write(draft: Draft | null): void;
}

/** @param key one for each thing that is written */
export function keptDraft<Draft>(key: string): KeptDraft<Draft> {
  const place = `ledgerline-draft ${key}`;
  return {
    read() {
      try {
        return JSON.parse(sessionStorage.getItem(place) ?? "null") as Draft | null;
      } catch {
        return null;
      }
    },
    write(draft) {
      try {
        if (draft === null) sessionStorage.removeItem(place);
        else sessionStorage.setItem(place, JSON.stringify(draft));
      } catch {
        // A browser without a store, or without room: it stands until the page is left.
      }
    },
  };
}
