/** Who may see what of a player, unfolded on the player's page. */
import { html, nothing } from "lit-html";
import type { Reaches } from "../../server/contract/access.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { reachesOf } from "./access-api.ts";
import { reachList } from "./reach-drawing.ts";

export function reachPanel(player: { readonly id: string; readonly name: string }): HTMLElement {
  const panel = h("details", { class: "reach-panel no-print" });
  const first: { readonly reaches: Reaches | null; readonly refused: unknown } = {
    reaches: null,
    refused: null,
  };
  const { change } = drawnFrom(
    panel,
    first,
    ({ reaches, refused }) => html`<summary>Who may see ${player.name}</summary>
      <div aria-live="polite">
        ${refused === null ? nothing : refusalNote(refused)} ${reaches === null ? nothing : reachList(reaches)}
      </div>`,
  );
  panel.addEventListener("toggle", () => {
    if (!panel.open) return;
    reachesOf(player.id).then(
      (reaches) => change(() => ({ reaches, refused: null })),
      (refused: unknown) => change((now) => ({ ...now, refused })),
    );
  });
  return panel;
}
