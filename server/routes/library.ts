/** `/players`, `/charts`, `/shapes`, `/ideas`, `/lenses`: list, create, read, change, delete, restore, by one pattern. */
import { z } from "zod";
import { handShapeSchema, lensSchema } from "../../src/account.ts";
import { chartText, parseChart } from "../../src/chart/index.ts";
import { checkShape } from "../../src/hands/index.ts";
import { checkLens, LENSES } from "../../src/lens/index.ts";
import { checkPattern } from "../../src/motif/index.ts";
import { type Access, type Actor, maySeePlayer } from "../access.ts";
import { idParams } from "../contract/fields.ts";
import {
  newChart,
  newIdea,
  newLens,
  newPlayer,
  newShape,
  playerSchema,
  storedChartSchema,
  storedIdeaSchema,
  storedLensSchema,
  storedShapeSchema,
} from "../contract/library.ts";
import { HttpProblem, notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import type { Queryable } from "../store/database.ts";
import {
  changeRow,
  createRow,
  deleteRow,
  findRow,
  type Kind,
  type Kinds,
  listRows,
  madeByOf,
  restoreRow,
} from "../store/library.ts";
import { deletePlayer, restorePlayer } from "../store/players.ts";

/** A row as it is answered: whose it is, is told as whether it is the caller's. */
type Answered<K extends Kind> = Omit<Kinds[K], "madeBy"> &
  (K extends "players" ? unknown : { readonly yours: boolean });

interface Resource<K extends Kind> {
  readonly kind: K;
  readonly one: string;
  readonly row: z.ZodType<Answered<K>>;
  readonly create: z.ZodObject;
  /** Throws a `Problem` when the values are not sound; answers them as they are to be stored. */
  readonly check: (values: Record<string, unknown>) => Record<string, unknown>;
  readonly example: Record<string, unknown>;
  readonly access: { readonly creates: Access; readonly reads: Access; readonly changes: Access };
  readonly remove?: (database: Queryable, id: string) => Promise<boolean>;
  readonly restore?: (database: Queryable, id: string) => Promise<boolean>;
}

/** Charts and shapes are read by everyone and belong to the teacher who made them; owners change all of them. */
const SHARED = { creates: "teaching", reads: "shared", changes: "teaching" } as const;

const PLAYERS: Resource<"players"> = {
  kind: "players",
  one: "player",
  row: playerSchema,
  create: newPlayer,
  check: (values) => values,
  example: { name: "Example player" },
  access: { creates: "owner", reads: "player", changes: "player" },
  remove: deletePlayer,
  restore: restorePlayer,
};

const CHARTS: Resource<"charts"> = {
  kind: "charts",
  one: "chart",
  row: storedChartSchema,
  create: newChart,
  check: (values) =>
    values.text === undefined ? values : { ...values, text: chartText(parseChart(String(values.text))) },
  example: { name: "Example chart", text: "key: F\n| F7 | Bb7 | C7 | F7 |" },
  access: SHARED,
};

const SHAPES: Resource<"shapes"> = {
  kind: "shapes",
  one: "shape",
  row: storedShapeSchema,
  create: newShape,
  check: (values) => {
    if (values.shape !== undefined) checkShape(handShapeSchema.parse(values.shape));
    return values;
  },
  example: {
    name: "three notes",
    shape: {
      name: "three notes",
      fingers: [1, 2, 3],
      semitones: [0, 2, 4],
      anchorFinger: 1,
      anchorDegrees: [{ degree: "1", qualities: [] }],
    },
  },
  access: SHARED,
};

const IDEAS: Resource<"ideas"> = {
  kind: "ideas",
  one: "idea",
  row: storedIdeaSchema,
  create: newIdea,
  check: (values) =>
    values.pattern === undefined ? values : { ...values, pattern: checkPattern(values.pattern) },
  example: { name: "Example idea", pattern: { viewpoint: "chromatic interval", symbols: [3, 2, 1] } },
  access: SHARED,
};

const OWN_LENSES: Resource<"lenses"> = {
  kind: "lenses",
  one: "lens",
  row: storedLensSchema,
  create: newLens,
  check: (values) =>
    values.lens === undefined ? values : { ...values, lens: checkLens(lensSchema.parse(values.lens)) },
  example: { name: "Example lens", lens: LENSES[0] },
  access: SHARED,
};

export const libraryRoutes: readonly Route[] = [
  ...routesOf(PLAYERS),
  ...routesOf(CHARTS),
  ...routesOf(SHAPES),
  ...routesOf(IDEAS),
  ...routesOf(OWN_LENSES),
];

function routesOf<K extends Kind>(resource: Resource<K>): Route[] {
  return [...makingRoutes(resource), ...changingRoutes(resource), ...deletingRoutes(resource)];
}

/** The rows of a kind under its name, as its list answers them. */
function listOf<K extends Kind>({ kind, row }: Resource<K>): z.ZodType<Record<K, Answered<K>[]>> {
  return z.object({ [kind]: z.array(row).describe(`${kind}, by name`) }).meta({
    id: `${kind[0]!.toUpperCase()}${kind.slice(1)}`,
    description: `all ${kind}`,
  }) as unknown as z.ZodType<Record<K, Answered<K>[]>>;
}

function withArticle(one: string): string {
  return `${/^[aeiou]/.test(one) ? "an" : "a"} ${one}`;
}

/** Reads one of a kind; a problem when there is none. */
async function existing<K extends Kind>(
  { kind, one }: Resource<K>,
  services: Services,
  id: string,
): Promise<Kinds[K]> {
  const found = await findRow(services.database, kind, id);
  if (found === null) throw notFound(one, id);
  return found;
}

/** All of a kind, and a new one. */
function makingRoutes<K extends Kind>(resource: Resource<K>): Route[] {
  const { kind, one, row, create, check, example, access } = resource;
  return [
    route({
      method: "get",
      path: `/${kind}`,
      access: kind === "players" ? "member" : access.reads,
      summary: `All ${kind}`,
      answers: { 200: { description: kind, schema: listOf(resource) } },
      example: {},
      handle: async ({ services, actor }) => {
        const rows = await listRows(services.database, kind);
        const seen = kind === "players" ? rows.filter((row) => maySeePlayer(actor, row.id)) : rows;
        const rowsAnswered = seen.map((row) => answered(row, actor));
        return { status: 200, json: { [kind]: rowsAnswered } as Record<K, Answered<K>[]> };
      },
    }),
    route({
      method: "post",
      path: `/${kind}`,
      access: access.creates,
      summary: `Create ${withArticle(one)}`,
      body: create,
      answers: { 201: { description: `the ${one}`, schema: row } },
      example: { body: example },
      handle: async ({ body, services, actor }) => {
        const values = { ...check(body as Record<string, unknown>), madeBy: actor.token };
        const id = await createRow(services.database, kind, values as never);
        return {
          status: 201,
          json: answered(await existing(resource, services, id), actor),
          location: `/api/${kind}/${id}`,
        };
      },
    }),
  ];
}

/** One of a kind: read and changed. */
function changingRoutes<K extends Kind>(resource: Resource<K>): Route[] {
  const { kind, one, row, create, check, access } = resource;
  return [
    route({
      method: "get",
      path: `/${kind}/:id`,
      access: access.reads,
      summary: `One ${one}`,
      params: idParams,
      answers: { 200: { description: `the ${one}`, schema: row } },
      handle: async ({ params, services, actor }) => ({
        status: 200,
        json: answered(await existing(resource, services, params.id), actor),
      }),
    }),
    route({
      method: "patch",
      path: `/${kind}/:id`,
      access: access.changes,
      summary: `Change ${withArticle(one)}`,
      params: idParams,
      body: create.partial(),
      answers: { 200: { description: `the ${one}`, schema: row } },
      handle: async ({ params, body, services, actor }) => {
        refuseOthers(resource, await existing(resource, services, params.id), actor);
        await changeRow(services.database, kind, params.id, check(body as Record<string, unknown>) as never);
        return { status: 200, json: answered(await existing(resource, services, params.id), actor) };
      },
    }),
  ];
}

/** One of a kind: deleted and brought back. */
function deletingRoutes<K extends Kind>(resource: Resource<K>): Route[] {
  const { kind, one, row, remove, restore, access } = resource;
  return [
    route({
      method: "delete",
      path: `/${kind}/:id`,
      access: access.changes,
      summary: `Delete ${withArticle(one)}; it can be restored for a while`,
      params: idParams,
      answers: { 204: { description: "deleted" } },
      handle: async ({ params, services, actor }) => {
        refuseOthers(resource, await existing(resource, services, params.id), actor);
        const done = remove
          ? await remove(services.database, params.id)
          : await deleteRow(services.database, kind, params.id);
        if (!done) throw notFound(one, params.id);
        return { status: 204 };
      },
    }),
    route({
      method: "post",
      path: `/${kind}/:id/restore`,
      access: access.changes,
      summary: `Bring back a deleted ${one}`,
      params: idParams,
      answers: { 200: { description: `the ${one}`, schema: row } },
      handle: async ({ params, services, actor }) => {
        if (kind !== "players") {
          const deleted = await madeByOf(services.database, kind as Exclude<Kind, "players">, params.id);
          if (deleted !== undefined) refuseOthers(resource, { madeBy: deleted }, actor);
        }
        const done = restore
          ? await restore(services.database, params.id)
          : await restoreRow(services.database, kind, params.id);
        if (!done) throw notFound(`deleted ${one}`, params.id);
        return { status: 200, json: answered(await existing(resource, services, params.id), actor) };
      },
    }),
  ];
}

/** Whether a row is the caller's to change. */
function isOf(row: object, actor: Actor): boolean {
  return actor.role === "owner" || !("madeBy" in row) || (row.madeBy !== null && row.madeBy === actor.token);
}

function answered<K extends Kind>(row: Kinds[K], actor: Actor): Answered<K> {
  if (!("madeBy" in row)) return row as unknown as Answered<K>;
  const { madeBy: _, ...rest } = row;
  return { ...rest, yours: isOf(row, actor) } as unknown as Answered<K>;
}

function refuseOthers<K extends Kind>({ one }: Resource<K>, row: object, actor: Actor): void {
  if (isOf(row, actor)) return;
  throw new HttpProblem(
    403,
    "not-yours",
    `This ${one} was made by somebody else`,
    "authorization",
    `Make ${withArticle(one)} of your own, or ask the owner of this service to change it.`,
  );
}
