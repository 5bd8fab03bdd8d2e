/** Joins a player's page with the server: reads it, sends what is changed, and offers the way back. */

import type { PlayerProgress } from "../../server/contract/player-page.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import { fetchJson, players, shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { keptDraft } from "../shell/kept-draft.ts";
import type { Shell } from "../shell/page.ts";
import { localDate } from "../shell/words.ts";
import { readLenses, readPlayerPage, sendPlayerCall } from "./player-api.ts";
import { playerDrawing } from "./player-drawing.ts";
import {
  deleting,
  kept,
  opened,
  type PlayerAction,
  type PlayerDraft,
  type PlayerState,
  refused,
  sending,
  unsent,
} from "./player-model.ts";

/** @param again called where takes were looked at anew or the name changed, so that the rest of the page follows */
export async function playerDesk(
  progress: PlayerProgress,
  shell: Shell,
  again: () => Promise<unknown>,
): Promise<HTMLElement> {
  const { id } = progress.player;
  const [page, all, own, ownShapes] = await Promise.all([
    readPlayerPage(id),
    players(),
    readLenses(),
    shapes.list(),
  ]);
  const host = h("div", { class: "stack" });
  const left = keptDraft<Partial<PlayerDraft>>(`player ${id}`);
  const start = opened(
    {
      page,
      takes: progress.takes,
      lens: progress.lens,
      others: all.filter((one) => one.id !== id),
      own,
      shapeNames: [...BUILT_IN_SHAPES, ...ownShapes.map(({ shape }) => shape)].map(({ name }) => name),
      today: localDate(new Date()),
    },
    left.read(),
  );
  const desk = drawnFrom(host, start, (state) => playerDrawing(state, { change, run }));

  /** What is not sent outlives a reload and the way back. */
  function change(next: (state: PlayerState) => PlayerState): void {
    desk.change(next);
    left.write(unsent(desk.state()));
  }

  function run(action: PlayerAction): void {
    change((now) => sending(now, action.words));
    sendPlayerCall(id, action).then(
      async (answer) => {
        if (action === deleting || action.path === "/merge") left.write(null);
        else left.write(without(left.read(), action.sent));
        if (action === deleting) shell.go("/");
        else if (action.path === "/merge") shell.go(`/players/${answer!.id}`);
        else if (action.path === "" || action.path.startsWith("/lens")) await again();
        else change((now) => kept(now, answer!, action.sent));
        shell.notify(action.done, action === deleting ? { label: "Undo", run: restore } : undefined);
      },
      (error) => change((now) => refused(now, error)),
    );
  }

  function restore(): void {
    fetchJson<unknown>(`/players/${encodeURIComponent(id)}/restore`, { method: "POST" }).then(
      () => {
        shell.notify("The player is back, with all takes.");
        shell.go(`/players/${id}`);
      },
      (error: Error) => shell.notify(error.message),
    );
  }
  return host;
}

/** What was sent is no draft any more. */
function without(
  draft: Partial<PlayerDraft> | null,
  sent: PlayerAction["sent"],
): Partial<PlayerDraft> | null {
  const rest = Object.entries(draft ?? {}).filter(([field]) => !(sent as readonly string[]).includes(field));
  return rest.length === 0 ? null : Object.fromEntries(rest);
}
