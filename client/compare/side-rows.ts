/** Whole rows of sides, offered from the side that was chosen first, each a click. */
import type { TakePage, TakeRow } from "../../server/contract/takes.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { classRow, rowsFrom, type SideOption } from "./side-model.ts";

export interface SideRows {
  readonly element: HTMLElement;
  /** Offers what the side leads to; nothing for none. */
  show(side: SideOption | null): Promise<void>;
}

export function sideRows(choose: (sides: readonly string[]) => void): SideRows {
  const element = h("div", { class: "row side-rows" });
  let latest: SideOption | null = null;
  return {
    element,
    async show(side) {
      latest = side;
      const offers = side === null ? [] : await offered(side);
      if (latest !== side) return;
      element.replaceChildren(
        ...offers.map(({ label, sides }) =>
          h("button", { type: "button", class: "quiet", onClick: () => choose(sides) }, label),
        ),
      );
    },
  };
}

async function offered(side: SideOption) {
  if (side.value.startsWith("tag:")) {
    const tag = side.value.slice(4);
    return classRow(tag, await read({ q: tag }));
  }
  return rowsFrom(side, side.playerId === null ? [] : await read({ player: side.playerId }));
}

async function read(question: Readonly<Record<string, string>>): Promise<readonly TakeRow[]> {
  try {
    const query = new URLSearchParams({ ...question, sort: "newest", limit: "200" });
    return (await fetchJson<TakePage>(`/takes?${query}`)).takes;
  } catch {
    return [];
  }
}
