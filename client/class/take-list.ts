/** Joins the list of takes with the server. */
import type { TakeRow } from "../../server/contract/takes.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { Shell } from "../shell/page.ts";
import { readTakes } from "./class-api.ts";
import { takeListDrawing } from "./take-list-drawing.ts";
import { answered, asking, emptyList, listQuery } from "./take-list-model.ts";
import {
  begun,
  choose,
  chooseShown,
  doneWords,
  ended,
  oneDone,
  stepOf,
  type TakeAct,
  type TakeStep,
  wayBack,
} from "./together-model.ts";

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
      remove: (row) => void together([row], { kind: "delete" }),
      choose: (row, on) => change((old) => choose(old, row, on)),
      chooseShown: (on) => change((old) => chooseShown(old, on)),
      together: (act) => void together([...state().chosen.values()], act),
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

  /** One take after the other; where one is refused, those that are left stay as they are, and chosen. */
  async function together(rows: readonly TakeRow[], act: TakeAct): Promise<void> {
    const done: TakeRow[] = [];
    change((old) => begun(old, rows.length));
    try {
      for (const [place, row] of rows.entries()) {
        await send(stepOf(row, act, place, rows.length));
        done.push(row);
        change((old) => oneDone(old, row));
      }
    } catch (refused) {
      change((now) => ({ ...now, refused }));
    }
    change(ended);
    await afterAll();
    if (done.length > 0)
      shell.notify(doneWords(done, act), { label: "Undo", run: () => void takeBack(done, act) });
  }

  async function takeBack(rows: readonly TakeRow[], act: TakeAct): Promise<void> {
    try {
      for (const row of rows) await send(wayBack(row, act));
    } catch (refused) {
      change((now) => ({ ...now, refused }));
    }
    await afterAll();
  }

  async function afterAll(): Promise<void> {
    changed();
    await read();
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

function send({ id, step }: TakeStep): Promise<unknown> {
  switch (step) {
    case "delete":
      return takes.remove(id);
    case "restore":
      return takes.restore(id);
    default:
      return takes.change(id, step);
  }
}
