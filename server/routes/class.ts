/** `/class`: the players as a teacher looks at them first. */
import { maySeePlayer } from "../access.ts";
import { classSchema } from "../contract/class.ts";
import { waitingLessons } from "../handed-lessons.ts";
import { type Route, route } from "../route.ts";
import { classOf } from "../store/class.ts";

export const classRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/class",
    access: "member",
    summary: "The players within reach with their lens, number of takes, newest take and lessons that wait",
    answers: { 200: { description: "the class", schema: classSchema } },
    example: {},
    handle: async ({ services, actor }) => {
      const { database } = services;
      const rows = (await classOf(database)).filter(({ id }) => maySeePlayer(actor, id));
      const players = rows.map(async ({ lessons, ...row }) => ({
        ...row,
        waiting: lessons === 0 ? 0 : await waitingLessons(database, row.id),
      }));
      return { status: 200, json: { players: await Promise.all(players) } };
    },
  }),
];
