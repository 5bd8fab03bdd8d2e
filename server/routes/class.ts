/** `/class`: the players as a teacher looks at them first. */
import { maySeePlayer } from "../access.ts";
import { classSchema } from "../contract/class.ts";
import { type Route, route } from "../route.ts";
import { classOf } from "../store/class.ts";

export const classRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/class",
    access: "member",
    summary: "The players within reach with their lens, number of takes and newest take",
    answers: { 200: { description: "the class", schema: classSchema } },
    example: {},
    handle: async ({ services, actor }) => {
      const rows = await classOf(services.database);
      return { status: 200, json: { players: rows.filter(({ id }) => maySeePlayer(actor, id)) } };
    },
  }),
];
