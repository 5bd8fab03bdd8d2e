/** `/takes`: keep a take, read its account, change what it was analysed with, delete it with a way back. */
import type { z } from "zod";
import { analysisSchema } from "../../src/account.ts";
import { maySeePlayer, reachOf } from "../access.ts";
import { sha256 } from "../analysis/analyst.ts";
import { idParams } from "../contract/fields.ts";
import type { JsonText } from "../contract/json-text.ts";
import {
  sentTakeChange,
  takeChange,
  takeForm,
  takeQuery,
  takeSchema,
  takesSchema,
  takeWithAnalysis,
} from "../contract/takes.ts";
import { HttpProblem, notFound } from "../errors.ts";
import { followLens, optionsForPlayer, today } from "../player-defaults.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import type { KeptAccount } from "../store/accounts.ts";
import { changeTake } from "../store/change-take.ts";
import { checkQuota } from "../store/quota.ts";
import { pageOfTakes } from "../store/take-list.ts";
import {
  createTake,
  deleteTake,
  findAccount,
  findTake,
  restoreTake,
  type StoredTake,
  takeSentUnder,
} from "../store/takes.ts";
import { chartTextOf, checkOptions, listOf, oneFile, optionsOf } from "./fields.ts";
import { othersPlayer, playerOf, playerOfChange } from "./player-of-take.ts";

const example = { params: { id: "maren-quick-change" } };

export const takeRoutes: readonly Route[] = [
  route({
    method: "post",
    path: "/takes",
    access: "teaching",
    summary: "Keep a take and analyse it",
    accepts: "form",
    body: takeForm,
    repeatable: true,
    answers: { 201: { description: "the take and its account", schema: takeWithAnalysis } },
    handle: async ({ body, files, key, services, actor }) => {
      const file = oneFile(files);
      if (actor.role !== "owner" && !maySeePlayer(actor, body.playerId ?? "")) {
        throw othersPlayer("playerId");
      }
      // All that was sent is in the hash: nobody gets to a take by its key alone.
      const sent =
        key === null ? null : { key, hash: sha256(JSON.stringify([sha256(file.bytes), file.name, body])) };
      const known = sent && (await takeSentUnder(services.database, sent));
      if (known !== null) return kept(services, known);
      const more = { takes: 1, bytes: file.bytes.length };
      await checkQuota(services.database, actor.token, services.quota, more);
      const chartText = await chartTextOf(body, services.database);
      const player = await playerOf(body, services);
      const given = optionsOf(body.options);
      const options = await optionsForPlayer(services.database, player, body.date || today(), given);
      const keepSound = body.keepSound === "true";
      const bytes = await services.listener.sourceOf(file.bytes, file.name, { given: !keepSound });
      const id = await createTake(services.database, services.analyst, {
        bytes,
        fileName: file.name,
        sound: keepSound && bytes !== file.bytes ? { fileName: file.name, bytes: file.bytes } : null,
        player,
        title: body.title || titleOf(file.name),
        date: body.date || null,
        chartText,
        options,
        tags: listOf(body.tags),
        demo: false,
        madeBy: actor.token,
        sent,
      });
      return kept(services, id);
    },
  }),
  route({
    method: "get",
    path: "/takes",
    access: "member",
    summary:
      "Takes within reach, found by what is typed, sorted, a page at a time; all of them when no limit is given",
    query: takeQuery,
    answers: { 200: { description: "takes", schema: takesSchema } },
    example: {},
    handle: async ({ query, services, actor }) => {
      const { player: playerId, tag, q, source, demo, sort, after = null, limit = null } = query;
      const filter = {
        playerId,
        tag,
        q,
        source,
        demo: demo === undefined ? undefined : demo === "true",
        ...reachOf(actor),
      };
      const page = await pageOfTakes(services.database, filter, sort, { after, limit });
      if (page === null) throw noSuchPage();
      return { status: 200, json: { ...page, takes: page.takes.map(takeRow) } };
    },
  }),
  route({
    method: "get",
    path: "/takes/:id",
    access: "take",
    summary: "One take",
    params: idParams,
    answers: { 200: { description: "the take", schema: takeSchema } },
    example,
    handle: async ({ params, services }) => ({
      status: 200,
      json: takeRow(await required(services, params.id)),
    }),
  }),
  route({
    method: "get",
    path: "/takes/:id/analysis",
    access: "take",
    summary: "The account of a take",
    params: idParams,
    answers: {
      200: { description: "the account", schema: analysisSchema },
      304: { description: "as it was: it still has a tag that If-None-Match names" },
    },
    example,
    handle: async ({ params, services }) => ({
      status: 200,
      kept: await keptOf(services, params.id),
    }),
  }),
  route({
    method: "patch",
    path: "/takes/:id",
    access: "take",
    summary: "Change a take; a new chart, anchor or option analyses it anew",
    params: idParams,
    body: takeChange,
    published: sentTakeChange,
    answers: { 200: { description: "the take and its account", schema: takeWithAnalysis } },
    example: { ...example, body: { tags: ["demo"] } },
    handle: async ({ params, body, services, actor }) => {
      const take = await required(services, params.id);
      const playerId = await playerOfChange(body.player, services, actor);
      const given = { ...body.options, ...(body.anchors === undefined ? {} : { anchors: body.anchors }) };
      await changeTake(services.database, services.analyst, take, {
        ...body,
        playerId,
        chartText: (await chartTextOf(body, services.database)) ?? undefined,
        options: checkOptions(given),
      });
      if (playerId !== undefined || body.date !== undefined) await followLens(services, params.id);
      return { status: 200, written: await withAnalysis(services, take.id) };
    },
  }),
  route({
    method: "delete",
    path: "/takes/:id",
    access: "take",
    summary: "Delete a take; it can be restored for a while",
    params: idParams,
    answers: { 204: { description: "deleted" } },
    handle: async ({ params, services }) => {
      if (!(await deleteTake(services.database, params.id))) throw notFound("take", params.id);
      return { status: 204 };
    },
  }),
  route({
    method: "post",
    path: "/takes/:id/restore",
    access: "take",
    summary: "Bring back a deleted take",
    params: idParams,
    answers: { 200: { description: "the take", schema: takeSchema } },
    handle: async ({ params, services }) => {
      if (!(await restoreTake(services.database, params.id))) throw notFound("deleted take", params.id);
      return { status: 200, json: takeRow(await required(services, params.id)) };
    },
  }),
];

/** A take as lists and pages show it. */
export function takeRow(take: StoredTake): z.infer<typeof takeSchema> {
  const { chartName, key, choruses, soloNotes, method, confidence, tempo, seconds } = take.facts;
  const { id, title, player, playerId, date, fileName, tags, demo, createdAt, sound } = take;
  return {
    id,
    title,
    player,
    playerId,
    date,
    fileName,
    tags: [...tags],
    demo,
    chartName,
    key,
    choruses,
    notes: soloNotes,
    method,
    confidence,
    tempo,
    seconds,
    createdAt,
    sound,
  };
}

function noSuchPage(): HttpProblem {
  return new HttpProblem(
    400,
    "no-such-page",
    "The take that this page was to go on after is gone for good",
    "query.after",
    "Read the list again from its first page.",
  );
}

async function required(services: Services, id: string): Promise<StoredTake> {
  const take = await findTake(services.database, id);
  if (take === null) throw notFound("take", id);
  return take;
}

/** The compressed account of a take; a problem when there is no such take. */
export async function account(services: Services, id: string): Promise<Uint8Array> {
  const found = await findAccount(services.database, id);
  if (found === null) throw notFound("take", id);
  return found;
}

async function kept(services: Services, id: string) {
  return { status: 201 as const, written: await withAnalysis(services, id), location: `/api/takes/${id}` };
}

async function keptOf(services: Services, id: string): Promise<KeptAccount> {
  const found = await services.accounts.of(id);
  if (found === null) throw notFound("take", id);
  return found;
}

/** A take and its account, whose own text is taken as it is: to read and write it again takes longer than all else. */
async function withAnalysis(
  services: Services,
  id: string,
): Promise<JsonText<z.infer<typeof takeWithAnalysis>>> {
  const row = JSON.stringify(takeRow(await required(services, id)));
  const text = await (await keptOf(services, id)).open();
  return Buffer.concat([Buffer.from(`{"take":${row},"analysis":`), text, Buffer.from("}")]);
}

/** "march-blues_2.mid" -> "march blues 2". */
function titleOf(fileName: string): string {
  return (
    fileName
      .replace(/\.[^.]+$/, "")
      .replace(/[-_]+/g, " ")
      .trim() || "Untitled take"
  );
}
