/** `GET /compare`: two takes, choruses, players or a class next to each other; three or more as a row. */
import { z } from "zod";
import {
  compareAll,
  compareSides,
  comparisonSchema,
  manyComparedSchema,
  poolSamples,
  type Sample,
  sampleOf,
} from "../../src/compare/index.ts";
import { maySee } from "../access.ts";
import { openAccount } from "../analysis/analyst.ts";
import { HttpProblem, notFound } from "../errors.ts";
import { type Context, type Route, route } from "../route.ts";
import { listTakes } from "../store/take-list.ts";
import { findAccount, findTake } from "../store/takes.ts";

const side = z.string().min(1).max(200);
const NAMES = "TAKE, TAKE:CHORUS, player:ID (all takes of a player) or tag:TAG (a class)";

/** Takes that one side may be made of. */
const MOST_TAKES = 200;
const MOST_SIDES = 24;

const comparedSchema = z
  .union([comparisonSchema, manyComparedSchema])
  .describe("two sides as a comparison, more as a row");

type Asked = Pick<Context<unknown, unknown, unknown>, "services" | "actor">;

export const compareRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/compare",
    access: "member",
    summary:
      "Compare sides: TAKE, TAKE:CHORUS, player:ID (all takes of a player) or tag:TAG (a class). Two as a and b, or more in sides",
    query: z.object({
      a: side.optional().describe(`the first side: ${NAMES}`),
      b: side.optional().describe(`the second side: ${NAMES}`),
      sides: z
        .string()
        .max(4000)
        .optional()
        .describe("three or more, separated by commas, in a meaningful order; each as a"),
      seed: z.coerce
        .number()
        .int()
        .default(1)
        .describe("seed of the permutation and bootstrap statistics, any whole number"),
    }),
    answers: { 200: { description: "the comparison", schema: comparedSchema } },
    example: { query: { a: "tilda-week-1", b: "tilda-week-8" } },
    handle: async ({ query, services, actor }) => {
      const asked = { services, actor };
      if (query.sides !== undefined) {
        const names = query.sides.split(",").map((name) => name.trim());
        if (names.length < 2 || names.length > MOST_SIDES) {
          throw wrongSides(`Between 2 and ${MOST_SIDES} sides can be compared, not ${names.length}`);
        }
        const sides = await Promise.all(names.map((name) => sideNamed(asked, name)));
        return { status: 200, json: compareAll(sides, query.seed) };
      }
      if (query.a === undefined || query.b === undefined) throw wrongSides("Two sides are needed, a and b");
      const [a, b] = await Promise.all([sideNamed(asked, query.a), sideNamed(asked, query.b)]);
      return { status: 200, json: compareSides(a, b, query.seed) };
    },
  }),
];

async function sideNamed(asked: Asked, name: string): Promise<Sample> {
  const group = /^(player|tag):(.+)$/.exec(name);
  if (group !== null) return groupSide(asked, group[1] as "player" | "tag", group[2]!);
  const [, id, chorus] = /^(.+?)(?::(\d+))?$/.exec(name)!;
  const { services, actor } = asked;
  const take = await findTake(services.database, id!);
  if (take === null || !maySee(actor, take)) throw notFound("take", id!);
  const analysis = openAccount((await findAccount(services.database, id!))!);
  try {
    return chorus === undefined
      ? sampleOf(analysis, { name: take.title })
      : sampleOf(analysis, { name: `${take.title}, chorus ${chorus}`, chorus: Number(chorus) });
  } catch (error) {
    if (error instanceof RangeError) throw wrongSides(`"${take.title}" has no chorus ${chorus}`);
    throw error;
  }
}

async function groupSide({ services, actor }: Asked, kind: "player" | "tag", value: string): Promise<Sample> {
  const filter = kind === "player" ? { playerId: value } : { tag: value };
  const takes = (await listTakes(services.database, filter)).filter((take) => maySee(actor, take));
  if (takes.length === 0) throw notFound(kind === "player" ? "player with takes" : "tag", value);
  const sides: Sample[] = [];
  for (const take of takes.slice(0, MOST_TAKES)) {
    sides.push(sampleOf(openAccount((await findAccount(services.database, take.id))!), { name: take.title }));
  }
  return poolSamples(kind === "player" ? (takes[0]!.player ?? value) : value, sides);
}

function wrongSides(message: string): HttpProblem {
  return new HttpProblem(
    400,
    "wrong-sides",
    message,
    "query",
    "Name takes as TAKE or TAKE:CHORUS, from the list of takes.",
  );
}
