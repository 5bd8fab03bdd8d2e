/** The chart that a player usually plays, offered when the player is named and no chart was chosen yet. */
import { readPlayerPage } from "../player/player-api.ts";
import { h } from "../shell/dom.ts";
import type { ChartFields } from "./chart-fields.ts";

/** The field in which a player is named; `list` is the id of the names that it proposes. */
export function playerField(
  list: string,
  players: readonly { readonly id: string; readonly name: string }[],
  chart: ChartFields,
): HTMLInputElement {
  const player = h("input", { name: "player", list, autocomplete: "off" });
  player.addEventListener("change", () => {
    const name = player.value.trim().toLowerCase();
    const known = players.find((one) => one.name.toLowerCase() === name);
    if (known === undefined) return;
    readPlayerPage(known.id).then(
      ({ usual }) => {
        if (usual.chart !== undefined) chart.offer(usual.chart);
      },
      // Without it the chart is chosen as before.
      () => {},
    );
  });
  return player;
}
