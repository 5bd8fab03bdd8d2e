/** Players and takes side by side; the demo class is put away from both, in this browser. */
import type { ClassPlayer } from "../../server/contract/class.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { Shell } from "../shell/page.ts";
import { localDate } from "../shell/words.ts";
import { readClass } from "./class-api.ts";
import { classDrawing } from "./class-drawing.ts";
import type { ClassState } from "./class-model.ts";
import { deletedList } from "./deleted-list.ts";
import { takeList } from "./take-list.ts";

const AWAY = "ledgerline-demo-away";

export interface ClassDesk {
  readonly element: HTMLElement;
  /** As they stood when the page was opened. */
  readonly players: readonly ClassPlayer[];
  /** Reads both anew. */
  refresh(): void;
}

export async function classDesk(shell: Shell): Promise<ClassDesk> {
  const demo = localStorage.getItem(AWAY) === null;
  const host = h("div");
  const deleted = deletedList(refresh);
  const [players, list] = await Promise.all([readClass(), takeList(demo, shell, changed)]);
  const first: ClassState = { players, demo, today: localDate(new Date()) };
  const { change } = drawnFrom(host, first, (state) => classDrawing(state, showDemo));

  function showDemo(shown: boolean): void {
    if (shown) localStorage.removeItem(AWAY);
    else localStorage.setItem(AWAY, "away");
    change((now) => ({ ...now, demo: shown }));
    list.showDemo(shown);
  }

  /** A take was deleted or came back. */
  function changed(): void {
    void readPlayers();
    deleted.refresh();
  }

  function refresh(): void {
    void readPlayers();
    void list.refresh();
  }

  async function readPlayers(): Promise<void> {
    try {
      const now = await readClass();
      change((state) => ({ ...state, players: now }));
    } catch (error) {
      shell.notify((error as Error).message);
    }
  }

  return {
    players,
    element: h(
      "div",
      { class: "class-desk" },
      h("section", { class: "sheet class-players" }, h("h2", {}, "Players"), host),
      h("section", { class: "sheet class-takes" }, h("h2", {}, "Takes"), list.element, deleted.element),
    ),
    refresh,
  };
}
