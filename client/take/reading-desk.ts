/** The one picture of a take with what has no place in its bars beside it: both follow the reading that is chosen. */
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { ReadingName, SelectionStore } from "../shell/selection.ts";
import { chorusPage } from "../views/chorus-page.ts";
import { type Framed, frameView } from "../views/frame.ts";
import { lineShares, roleShares } from "../views/label-shares.ts";
import { motifList } from "../views/motif-list.ts";
import { register } from "../views/register.ts";
import { swingByBeat } from "../views/swing-by-beat.ts";
import type { Actions, View } from "../views/view.ts";

const BESIDE: Readonly<Record<ReadingName, () => View>> = {
  role: roleShares,
  line: lineShares,
  hand: register,
  ideas: motifList,
  time: swingByBeat,
  register,
};

export interface ReadingDesk {
  readonly picture: Framed;
  /** Holds the small picture of the reading. */
  readonly beside: HTMLElement;
  end(): void;
}

export function readingDesk(index: AccountIndex, store: SelectionStore, actions: Actions = {}): ReadingDesk {
  const picture = frameView(chorusPage(store), index, store, actions);
  const beside = h("div", { class: "beside" });
  const made = new Map<() => View, Framed>();
  const show = () => {
    const make = BESIDE[store.reading];
    const known = made.get(make) ?? frameView(make(), index, store, actions);
    made.set(make, known);
    beside.replaceChildren(known.element);
  };
  const unwatch = store.watch((change) => {
    if (change === "reading") show();
  });
  show();
  return {
    picture,
    beside,
    end() {
      unwatch();
      picture.end();
      for (const frame of made.values()) frame.end();
    },
  };
}
