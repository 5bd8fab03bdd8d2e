import type { Lens } from "../src/account.ts";
import { checkLens, LENSES } from "../src/lens/index.ts";
import { notFound } from "./errors.ts";
import type { Queryable } from "./store/database.ts";
import { findRow } from "./store/library.ts";

/**
 * A lens by its id, built in or the teacher's own. A copy: what the teacher changes of a lens later changes no judgement
 * that was made by it.
 *
 * @throws 404 when there is none
 */
export async function lensNamed(database: Queryable, id: string): Promise<Lens> {
  const builtIn = LENSES.find((lens) => lens.id === id);
  if (builtIn !== undefined) return builtIn;
  const own = await findRow(database, "lenses", id);
  if (own === null) throw notFound("lens", id);
  return checkLens({ ...own.lens, id: own.id, name: own.name });
}
