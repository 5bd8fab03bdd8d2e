/** Joins the list of takes with the server. */
import type { TakeRow } from "../../server/contract/takes.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { Shell } from "../shell/page.ts";
import { readTakes } from "./class-api.ts";
import { takeListDrawing } from "./take-list-drawing.ts";
import { answered, asking, emptyList, listQuery, takeName } from "./take-list-model.ts";

/** Milliseconds without a key after which what is typed is looked for: a fast typist's pause between two keys. */
const PAUSE = 150;

export interface TakeList {
  readonly element: HTMLElement;
  refresh(): Promise<void>;
  showDemo(shown: boolean): void;
}

/** @param changed called after a take was deleted or came back */
export async function takeList(demo: boolean, shell: Shell, changed: () => void): Promise<TakeList> {
  const host = h("div", { class: "take-list" });
  const first = emptyList(demo);
  const page = await readTakes(listQuery(first));
  let pause: ReturnType<typeof setTimeout> | undefined;
  const { state, change } = drawnFrom(host, answered(first, first, page, false), (now) =>
    takeListDrawing(now, {
      typed: (typed) => {
        change((old) => asking(old, { typed }));
        clearTimeout(pause);
        pause = setTimeout(() => void read(), PAUSE);
      },
      sorted: (sort) => {
        change((old) => asking(old, { sort }));
        void read();
      },
      more: () => void read(state().next),
      remove: (row) => void remove(row),
    }),
  );

  async function read(after: string | null = null): Promise<void> {
    const to = state();
    try {
      const answer = await readTakes(listQuery(to, after));
      change((now) => answered(now, to, answer, after !== null));
    } catch (refused) {
      change((now) => ({ ...now, refused }));
    }
  }

  async function after(work: Promise<unknown>): Promise<void> {
    await work;
    changed();
    await read();
  }

  async function remove(row: TakeRow): Promise<void> {
    await after(takes.remove(row.id));
    shell.notify(`“${takeName(row)}” is deleted.`, {
      label: "Undo",
      run: () => void after(takes.restore(row.id)),
    });
  }

  return {
    element: host,
    refresh: () => read(),
    showDemo: (shown) => {
      change((old) => asking(old, { demo: shown }));
      void read();
    },
  };
}
