/** What a side of a comparison may be, found by what is typed: a take, all takes of a player, or a class by its tag. */
import type { TakeRow } from "../../server/contract/takes.ts";
import { day } from "../shell/words.ts";

/** Most sides that the service compares at once. */
export const MOST_SIDES = 24;

export interface SideOption {
  /** "TAKE", "player:ID" or "tag:TAG". */
  readonly value: string;
  readonly text: string;
  /** Choruses of a take; 0 for what is made of several takes. */
  readonly choruses: number;
  readonly playerId: string | null;
}

/**
 * The sides that rows found by `typed` offer: takes in their order, then players and tags in whose name each typed
 * word stands. No two have the same text.
 */
export function sidesFound(rows: readonly TakeRow[], typed: string): SideOption[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const named = (name: string) => words.every((word) => name.toLowerCase().includes(word));
  const players = new Map(
    rows.flatMap((row) => (row.playerId ? [[row.playerId, row.player ?? ""] as const] : [])),
  );
  const tags = [...new Set(rows.flatMap((row) => row.tags))].sort();
  return told([
    ...rows.map(takeSide),
    ...[...players].flatMap(([id, name]) => (named(name) ? [playerSide(id, name)] : [])),
    ...tags.filter(named).map(tagSide),
  ]);
}

export const takeSide = (row: TakeRow): SideOption => ({
  value: row.id,
  text: [row.player, row.title || row.chartName, day(row.date)].filter(Boolean).join(", "),
  choruses: row.choruses,
  playerId: row.playerId,
});

export const playerSide = (id: string, name: string): SideOption => ({
  ...{ value: `player:${id}`, text: `all takes of ${name}`, choruses: 0, playerId: id },
});

export const tagSide = (tag: string): SideOption => ({
  ...{ value: `tag:${tag}`, text: `all takes tagged ${tag}`, choruses: 0, playerId: null },
});

/** Two takes of one name on one day are told apart by a number. */
function told(options: readonly SideOption[]): SideOption[] {
  const seen = new Map<string, number>();
  return options.map((option) => {
    const times = (seen.get(option.text) ?? 0) + 1;
    seen.set(option.text, times);
    return times === 1 ? option : { ...option, text: `${option.text} (${times})` };
  });
}

/** A whole row of sides that a teacher asks for from one take: its choruses, or its player's takes in time. */
export interface SideRow {
  readonly label: string;
  readonly sides: readonly string[];
}

/** @param own the takes of the side's player, in any order */
export function rowsFrom(side: SideOption, own: readonly TakeRow[]): SideRow[] {
  const choruses = Array.from({ length: side.choruses }, (_, i) => `${side.value}:${i + 1}`);
  const inTime = [...own].sort((a, b) => (a.date ?? "").localeCompare(b.date ?? ""));
  const name = inTime[0]?.player ?? "";
  return [
    ...(choruses.length > 1
      ? [{ label: "Its choruses side by side", sides: choruses.slice(0, MOST_SIDES) }]
      : []),
    ...(inTime.length > 1
      ? [
          {
            label: `The takes of ${name} in time`,
            sides: inTime.slice(-MOST_SIDES).map(({ id }) => id),
          },
        ]
      : []),
  ];
}

/** The players of a class side by side, from the takes under its tag; none where there is one player alone. */
export function classRow(tag: string, rows: readonly TakeRow[]): SideRow[] {
  const inside = rows.filter((row) => row.tags.includes(tag) && row.playerId !== null);
  const players = [...new Set(inside.map((row) => `player:${row.playerId}`))];
  return players.length < 2
    ? []
    : [{ label: `The players of ${tag} side by side`, sides: players.slice(0, MOST_SIDES) }];
}
