/** Whose a take is: a player of the list, one made by name, or nobody. */
import { type Actor, maySeePlayer } from "../access.ts";
import { HttpProblem } from "../errors.ts";
import type { Services } from "../services.ts";
import { findRow, listRows, playerNamed } from "../store/library.ts";
import type { PlayerOfTake } from "../store/takes.ts";

/** The player whom a take is given to: for a teacher, one of their own. */
export async function playerOfChange(
  name: string | null | undefined,
  services: Services,
  actor: Actor,
): Promise<string | null | undefined> {
  if (name === undefined) return undefined;
  if (actor.role === "owner") {
    return name ? services.database.transaction((inside) => playerNamed(inside, name)) : null;
  }
  const own = (await listRows(services.database, "players")).find(
    (player) => maySeePlayer(actor, player.id) && player.name.toLowerCase() === name?.toLowerCase(),
  );
  if (own === undefined) throw othersPlayer("player");
  return own.id;
}

export function othersPlayer(where: string): HttpProblem {
  return new HttpProblem(
    403,
    "not-allowed",
    "A teacher keeps takes of their own players",
    where,
    "Choose one of your players.",
  );
}

export async function playerOf(
  body: { readonly player?: string | undefined; readonly playerId?: string | undefined },
  services: Services,
): Promise<PlayerOfTake> {
  if (body.playerId) {
    if ((await findRow(services.database, "players", body.playerId)) === null) {
      throw new HttpProblem(
        422,
        "no-such-player",
        `There is no player "${body.playerId}"`,
        "playerId",
        "Choose a player from the list or give a name.",
      );
    }
    return { id: body.playerId };
  }
  return body.player ? { name: body.player } : null;
}
