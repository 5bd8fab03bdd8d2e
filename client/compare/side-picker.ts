/** One side of a comparison: a take, a chorus of it, all takes of a player, or a class by its tag. */
import type { TakeRow } from "../../server/contract/takes.ts";
import { h } from "../shell/dom.ts";
import { day } from "../shell/words.ts";

export interface SidePicker {
  readonly element: HTMLElement;
  /** "TAKE", "TAKE:CHORUS", "player:ID", "tag:TAG", or "". */
  value(): string;
}

export function sidePicker(label: string, rows: readonly TakeRow[], start: string): SidePicker {
  const whole = /^(player|tag):/.test(start);
  const [id = "", chorus = ""] = whole ? [start] : start.split(":");
  const option = (value: string, text: string) => h("option", { value, selected: value === id }, text);
  const take = h(
    "select",
    { name: `${label.toLowerCase()}-take` },
    option("", "choose"),
    h(
      "optgroup",
      { label: "Takes" },
      ...rows.map((row) => option(row.id, [row.player, row.title, day(row.date)].filter(Boolean).join(", "))),
    ),
    h(
      "optgroup",
      { label: "Players, all takes" },
      ...playersOf(rows).map(([player, name]) => option(`player:${player}`, `all takes of ${name}`)),
    ),
    h(
      "optgroup",
      { label: "Classes, by tag" },
      ...tagsOf(rows).map((tag) => option(`tag:${tag}`, `all takes tagged ${tag}`)),
    ),
  );
  const part = h("select", { name: `${label.toLowerCase()}-chorus` });
  const partField = h("label", {}, "Part of it", part);
  const fillPart = (now: string) => {
    const choruses = rows.find((row) => row.id === take.value)?.choruses ?? 0;
    partField.hidden = choruses < 2;
    part.replaceChildren(
      h("option", { value: "" }, "all of it"),
      ...Array.from({ length: choruses }, (_, i) =>
        h("option", { value: i + 1, selected: String(i + 1) === now }, `chorus ${i + 1}`),
      ),
    );
  };
  take.addEventListener("change", () => fillPart(""));
  fillPart(chorus);
  return {
    element: h("div", { class: "row side-picker" }, h("label", {}, `${label} side`, take), partField),
    value: () => (take.value ? `${take.value}${part.value ? `:${part.value}` : ""}` : ""),
  };
}

export function playersOf(rows: readonly TakeRow[]): [string, string][] {
  return [
    ...new Map(rows.flatMap((row) => (row.playerId ? [[row.playerId, row.player ?? ""] as const] : []))),
  ].sort((a, b) => a[1].localeCompare(b[1]));
}

export function tagsOf(rows: readonly TakeRow[]): string[] {
  return [...new Set(rows.flatMap((row) => row.tags))].sort();
}
