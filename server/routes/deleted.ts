/** `/deleted`: what was deleted and can still be brought back. */
import { reachOf } from "../access.ts";
import { deletedSchema } from "../contract/deleted.ts";
import { type Route, route } from "../route.ts";
import { listDeleted } from "../store/deleted.ts";

export const deletedRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/deleted",
    access: "teaching",
    summary: "Takes and players within reach that were deleted, with when they go for good",
    answers: { 200: { description: "what can be brought back", schema: deletedSchema } },
    example: {},
    handle: async ({ services, actor }) => ({
      status: 200,
      json: { deleted: [...(await listDeleted(services.database, reachOf(actor).players))] },
    }),
  }),
];
