/** What a player's page decides of their takes: the usual hand and shapes of a new one, and the lens of each day. */
import { type AnalyseOptionsInput, handShapeSchema, lensSchema } from "../src/account.ts";
import { BUILT_IN_SHAPES } from "../src/hands/index.ts";
import type { Services } from "./services.ts";
import { changeTake } from "./store/change-take.ts";
import type { Queryable } from "./store/database.ts";
import { listRows, playerIdNamed } from "./store/library.ts";
import { findPlayerPage, lensesOf, lensOn } from "./store/player-page.ts";
import { takesOfPlayer } from "./store/players.ts";
import { findTake, type PlayerOfTake, type StoredTake } from "./store/takes.ts";

/** Options of a new take: what was given comes before what is usual. */
export async function optionsForPlayer(
  database: Queryable,
  player: PlayerOfTake,
  day: string,
  given: AnalyseOptionsInput,
): Promise<AnalyseOptionsInput> {
  const id = player === null ? null : "id" in player ? player.id : await playerIdNamed(database, player.name);
  const page = id === null ? null : await findPlayerPage(database, id);
  if (page === null) return given;
  const { handSize, shapes } = page.usual;
  const lens = lensOn(page.lenses, day);
  return {
    ...given,
    ...(given.handSize === undefined && handSize !== undefined ? { handSize } : {}),
    ...(given.shapes == null && shapes !== undefined ? await usualShapes(database, shapes, given) : {}),
    ...(given.lens === undefined && lens !== null ? { lens: lensSchema.parse(lens) } : {}),
  };
}

/** The usual shapes with those of the teacher's own among them; one that was deleted since is left out. */
async function usualShapes(
  database: Queryable,
  names: readonly string[],
  given: AnalyseOptionsInput,
): Promise<Pick<AnalyseOptionsInput, "shapes" | "ownShapes">> {
  const kept = (await listRows(database, "shapes")).map(({ shape }) => handShapeSchema.parse(shape));
  const ownShapes = [...(given.ownShapes ?? []), ...kept].filter(({ name }) => names.includes(name));
  const known = new Set([...BUILT_IN_SHAPES, ...ownShapes].map(({ name }) => name));
  const shapes = names.filter((name) => known.has(name));
  // Where all of them are gone, the line decides again.
  if (shapes.length === 0 && names.length > 0) return {};
  const once = new Map(ownShapes.map((shape) => [shape.name, shape]));
  return { shapes, ...(once.size === 0 ? {} : { ownShapes: [...once.values()] }) };
}

/** Looks at a take through the lens that its player has on its day; without one, through none. */
export async function followLens({ database, analyst }: Services, takeId: string): Promise<void> {
  const take = await findTake(database, takeId);
  if (take === null) return;
  const lenses = take.playerId === null ? [] : await lensesOf(database, take.playerId);
  const wanted = lensOn(lenses, dayOf(take));
  const lens = wanted === null ? undefined : lensSchema.parse(wanted);
  const now = take.options.lens === undefined ? undefined : lensSchema.parse(take.options.lens);
  if (JSON.stringify(lens) === JSON.stringify(now)) return;
  await changeTake(database, analyst, take, { options: { lens } });
}

/** The same for all takes of a player, one after the other. */
export async function followLenses(services: Services, playerId: string): Promise<void> {
  for (const { id } of await takesOfPlayer(services.database, playerId)) await followLens(services, id);
}

/** The day on which a take was played; else the day on which it came. */
function dayOf({ date, createdAt }: Pick<StoredTake, "date" | "createdAt">): string {
  return date ?? createdAt.slice(0, 10);
}

export function today(): string {
  return new Date().toISOString().slice(0, 10);
}
