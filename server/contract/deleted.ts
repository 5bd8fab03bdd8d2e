/** What was deleted and can still be brought back. */
import { z } from "zod";
import type { Frozen } from "../../src/account.ts";
import { timeField } from "./fields.ts";

const deletedOneSchema = z
  .object({
    kind: z.enum(["take", "player"]).describe("what it was"),
    id: z.string().describe("its id, by which it is restored: `/takes/ID/restore`, `/players/ID/restore`"),
    name: z.string().describe("title of the take, or name of the player"),
    player: z.string().nullable().describe("name of the player of a take; null for none, and for a player"),
    takes: z.int().describe("number of takes that come back with it: 1 for a take"),
    deletedAt: timeField.describe("when it was deleted, in UTC: 2026-03-01T18:30:00Z"),
    goesAt: timeField.describe("after this moment it goes for good, in UTC"),
  })
  .meta({ id: "DeletedOne", description: "a take or a player that was deleted" });

export const deletedSchema = z
  .object({ deleted: z.array(deletedOneSchema).describe("what can be brought back, deleted last first") })
  .meta({ id: "Deleted", description: "takes and players that were deleted and have not gone for good" });

export type DeletedOne = Frozen<z.output<typeof deletedOneSchema>>;
