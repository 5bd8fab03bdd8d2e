/** The selection and the reading that an address states, and the address that they state. */
import type { Shell } from "./page.ts";
import { createSelection, placeQuery, readReading, readSelection, type SelectionStore } from "./selection.ts";

export function storeOfAddress(query: URLSearchParams, shell: Pick<Shell, "replaceQuery">): SelectionStore {
  return createSelection(
    readSelection(query),
    (selection, reading) => shell.replaceQuery(placeQuery(selection, reading)),
    readReading(query),
  );
}

/** Back, forward, or a link within the page: the store follows. */
export function followAddress(store: SelectionStore, query: URLSearchParams): void {
  store.read(readReading(query));
  store.select(readSelection(query));
}
