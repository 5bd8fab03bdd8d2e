/** One side of a comparison, found by typing: a take, a chorus of it, all takes of a player, or a class by its tag. */
import type { TakePage, TakeRow } from "../../server/contract/takes.ts";
import { fetchJson, players, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { playerSide, type SideOption, sidesFound, tagSide, takeSide } from "./side-model.ts";

/** Takes that one question brings: as many as a list beside a field can show. */
const FOUND = 20;

export interface SidePicker {
  readonly element: HTMLElement;
  /** "TAKE", "TAKE:CHORUS", "player:ID", "tag:TAG", or "". */
  value(): string;
  chosen(): SideOption | null;
}

/** @param changed called when another side has been chosen */
export function sidePicker(
  label: string,
  start: SideOption | null,
  chorus: string,
  changed: () => void,
): SidePicker {
  let chosen = start;
  /** All that was offered so far, by its text: who types it to its end means it, whatever is offered by then. */
  const known = new Map<string, SideOption>(start === null ? [] : [[start.text, start]]);
  let asked = "";
  const list = h("datalist", { id: `${label.toLowerCase()}-sides` });
  const field = h("input", {
    type: "search",
    name: `${label.toLowerCase()}-take`,
    list: list.id,
    autocomplete: "off",
    placeholder: "player, title, chart, date or tag",
    value: start?.text ?? "",
  });
  const part = h("select", { name: `${label.toLowerCase()}-chorus` });
  const partField = h("label", {}, "Part of it", part);
  const fillPart = (now: string) => {
    const choruses = chosen?.choruses ?? 0;
    partField.hidden = choruses < 2;
    part.replaceChildren(
      h("option", { value: "" }, "all of it"),
      ...Array.from({ length: choruses }, (_, i) =>
        h("option", { value: i + 1, selected: String(i + 1) === now }, `chorus ${i + 1}`),
      ),
    );
  };
  const offer = async () => {
    const typed = field.value;
    asked = typed;
    const rows = await found(typed);
    // A slow answer never covers the one typed after it.
    if (asked !== typed) return;
    const offered = sidesFound(rows, typed);
    for (const side of offered) known.set(side.text, side);
    list.replaceChildren(...offered.map(({ text }) => h("option", { value: text })));
  };
  const typed = () => {
    const hit = known.get(field.value) ?? null;
    if (hit === null) void offer();
    if (hit?.value === chosen?.value) return;
    chosen = hit;
    fillPart("");
    changed();
  };
  field.addEventListener("input", typed);
  field.addEventListener("focus", () => void offer(), { once: true });
  fillPart(chorus);
  return {
    element: h("div", { class: "row side-picker" }, h("label", {}, `${label} side`, field), list, partField),
    value: () => (chosen === null ? "" : `${chosen.value}${part.value ? `:${part.value}` : ""}`),
    chosen: () => chosen,
  };
}

/** The newest takes that fit; nothing where the server does not answer, which the comparison itself then says. */
async function found(typed: string): Promise<readonly TakeRow[]> {
  const query = new URLSearchParams({ sort: "newest", limit: String(FOUND) });
  // As sides are written: "player, title, date".
  const words = typed.replaceAll(",", " ").trim();
  if (words !== "") query.set("q", words);
  try {
    return (await fetchJson<TakePage>(`/takes?${query}`)).takes;
  } catch {
    return [];
  }
}

/** A side of an address. */
interface SideNamed {
  readonly side: SideOption | null;
  readonly chorus: string;
  /** What the address named where there is nothing of that name; null where it named nothing, or something that is there. */
  readonly missing: string | null;
}

/** The side that an address names, with the chorus beside it. */
export async function sideNamed(side: string): Promise<SideNamed> {
  const found = await lookUp(side);
  return { ...found, missing: side !== "" && found.side === null ? side : null };
}

async function lookUp(side: string): Promise<Omit<SideNamed, "missing">> {
  if (side === "") return { side: null, chorus: "" };
  if (side.startsWith("tag:")) return { side: tagSide(side.slice(4)), chorus: "" };
  const [id = "", chorus = ""] = side.startsWith("player:") ? [side] : side.split(":");
  try {
    if (!side.startsWith("player:")) return { side: takeSide(await takes.get(id)), chorus };
    const player = (await players()).find((one) => `player:${one.id}` === side);
    return { side: player ? playerSide(player.id, player.name) : null, chorus };
  } catch {
    return { side: null, chorus: "" };
  }
}
