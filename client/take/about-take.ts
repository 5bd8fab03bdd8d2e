/** Whose take it is and when it was played; and whether its hand holds for the player's next takes. */
import type { Usual } from "../../server/contract/player-page.ts";
import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import type { HandOptions } from "../parts/hand-choice.ts";
import { ApiError, playerPage } from "../shell/api.ts";
import { h } from "../shell/dom.ts";

export interface AboutTake {
  readonly element: HTMLElement;
  read(): Pick<TakeChange, "title" | "player" | "date">;
  /** Keeps the hand as the player's usual one, where that was asked for; false, with words, where it could not be kept. */
  keep(hand: HandOptions): Promise<boolean>;
}

export function aboutTake(take: TakeRow): AboutTake {
  const title = h("input", { name: "title", value: take.title ?? "" });
  const player = h("input", { name: "player", value: take.player ?? "" });
  const date = h("input", { name: "date", type: "date", value: take.date?.slice(0, 10) ?? "" });
  const usual = h("input", { name: "usual-hand", type: "checkbox" });
  const said = h("p", { class: "hint", role: "status" });
  const element = h(
    "fieldset",
    {},
    h("legend", {}, "The take"),
    h(
      "div",
      { class: "row" },
      h("label", {}, "Title", title),
      h("label", {}, "Player", player),
      h("label", {}, "Date", date),
    ),
    take.playerId === null
      ? null
      : h("label", {}, usual, ` Hand size and shapes as above for ${take.player}’s next takes too`),
    said,
  );
  return {
    element,
    read: () => ({
      ...(title.value.trim() ? { title: title.value.trim() } : {}),
      ...(player.value.trim() ? { player: player.value.trim() } : {}),
      ...(date.value ? { date: date.value } : {}),
    }),
    async keep(hand) {
      if (take.playerId === null || !usual.checked) return true;
      try {
        const page = await playerPage.get(take.playerId);
        await playerPage.change(take.playerId, { usual: withHand(page.usual, hand) });
        return true;
      } catch (error) {
        if (!(error instanceof ApiError)) throw error;
        said.textContent = `The hand was not kept for ${take.player}: ${error.message} ${error.todo}`;
        return false;
      }
    },
  };
}

/** Shapes that are left to the evidence are not kept: that is what happens anyway. */
function withHand({ chart, handSize: before }: Usual, { handSize = before, shapes }: HandOptions): Usual {
  return {
    ...(chart === undefined ? {} : { chart }),
    ...(handSize === undefined ? {} : { handSize }),
    ...(shapes == null ? {} : { shapes: [...shapes] }),
  };
}
