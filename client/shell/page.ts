/** What a page is to the shell, and what the shell offers a page. */
export interface Page {
  readonly title: string;
  readonly element: HTMLElement;
  /** The address's query changed while the page stands (back, forward, an edited link). */
  query?(query: URLSearchParams): void;
  /** Single keys that the page answers. */
  key?(event: KeyboardEvent): void;
  end?(): void;
}

export interface Shell {
  go(path: string): void;
  /** Keeps the query in the address without a new step in the history. */
  replaceQuery(query: string): void;
  /** One line at the foot of the window, with a way back where there is one. */
  notify(text: string, undo?: { label: string; run: () => void }): void;
  /** Files that were dropped on another page, once. */
  takeDropped(): File[];
}

export type PageMaker = (
  parameters: readonly string[],
  query: URLSearchParams,
  shell: Shell,
) => Promise<Page> | Page;
