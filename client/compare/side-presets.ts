/** Rows of sides that a teacher asks for most: the choruses of a take, the takes of a player, the players of a class. */
import type { TakeRow } from "../../server/contract/takes.ts";
import { h } from "../shell/dom.ts";
import { playersOf, tagsOf } from "./side-picker.ts";

/** Most sides that the service compares at once. */
export const MOST_SIDES = 24;

/** Calls `choose` with the sides in their order. */
export function sidePresets(
  rows: readonly TakeRow[],
  choose: (sides: readonly string[]) => void,
): HTMLElement {
  const select = (name: string, empty: string, options: readonly (readonly [string, string])[]) =>
    h(
      "select",
      {
        name,
        onChange: (event: Event) => {
          const { value } = event.target as HTMLSelectElement;
          if (value !== "") choose(value.split(",").slice(0, MOST_SIDES));
        },
      },
      h("option", { value: "" }, empty),
      ...options.map(([value, text]) => h("option", { value }, text)),
    );
  const choruses = rows
    .filter((row) => row.choruses > 1)
    .map((row) => {
      const sides = Array.from({ length: row.choruses }, (_, i) => `${row.id}:${i + 1}`);
      return [sides.join(","), [row.player, row.title].filter(Boolean).join(", ")] as const;
    });
  const players = playersOf(rows).flatMap(([id, name]) => {
    const own = rows
      .filter((row) => row.playerId === id)
      .sort((a, b) => (a.date ?? "").localeCompare(b.date ?? ""));
    return own.length < 2 ? [] : [[own.map((row) => row.id).join(","), name] as const];
  });
  const classes = tagsOf(rows).flatMap((tag) => {
    const inside = playersOf(rows.filter((row) => row.tags.includes(tag)));
    return inside.length < 2 ? [] : [[inside.map(([id]) => `player:${id}`).join(","), tag] as const];
  });
  return h(
    "div",
    { class: "row presets" },
    h("label", {}, "The choruses of", select("preset-choruses", "a take", choruses)),
    h("label", {}, "The takes, in time, of", select("preset-takes", "a player", players)),
    h("label", {}, "The players of", select("preset-class", "a class", classes)),
  );
}
