/** `/players/:id/page` and what stands on it: the usual, consent, lenses by their days, notes, two players made one. */
import { chartText, parseChart } from "../../src/chart/index.ts";
import { maySeePlayer } from "../access.ts";
import { dateField, idParams } from "../contract/fields.ts";
import {
  lensOfDay,
  mergeInto,
  newNote,
  noteParams,
  playerPageChange,
  playerPageSchema,
} from "../contract/player-page.ts";
import { HttpProblem, notFound } from "../errors.ts";
import { lensNamed } from "../lens-named.ts";
import { followLenses } from "../player-defaults.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import type { Queryable } from "../store/database.ts";
import { findRow } from "../store/library.ts";
import {
  addNote,
  changePlayerPage,
  findPlayerPage,
  mergePlayers,
  removeLens,
  removeNote,
  setLens,
} from "../store/player-page.ts";

const pageAnswer = { 200: { description: "the player's page", schema: playerPageSchema } };

const example = { params: { id: "tilda" } };

export const playerPageRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/players/:id/page",
    access: "player",
    summary: "A player's page: the usual, consent, lenses with their days, notes for the parents",
    params: idParams,
    answers: pageAnswer,
    example,
    handle: async ({ params, services }) => pageOf(services.database, params.id),
  }),
  route({
    method: "patch",
    path: "/players/:id/page",
    access: "player",
    summary: "Change what is usual for a player, or note the consent of the parents",
    params: idParams,
    body: playerPageChange,
    answers: pageAnswer,
    example: { ...example, body: { usual: { handSize: "small" } } },
    handle: async ({ params, body: { usual, consent }, services }) => {
      await required(services.database, params.id);
      const chart = usual?.chart === undefined ? undefined : chartText(parseChart(usual.chart));
      await changePlayerPage(services.database, params.id, {
        usual: usual && { ...usual, ...(chart === undefined ? {} : { chart }) },
        consent,
      });
      return pageOf(services.database, params.id);
    },
  }),
  route({
    method: "put",
    path: "/players/:id/lens",
    access: "player",
    summary: "What a player works on from a day on; takes of that time are looked at through it",
    params: idParams,
    body: lensOfDay,
    answers: pageAnswer,
    example: { ...example, body: { lens: "rests-and-answers", since: "2026-09-01" } },
    handle: async ({ params, body: { lens, since }, services }) => {
      await required(services.database, params.id);
      const chosen = lens === null ? null : await lensNamed(services.database, lens);
      await setLens(services.database, params.id, { since, lens: chosen });
      return afterLenses(services, params.id);
    },
  }),
  route({
    method: "delete",
    path: "/players/:id/lens/:since",
    access: "player",
    summary: "Take a player's lens of a day back",
    params: idParams.extend({
      since: dateField.describe("the day from which on it holds, written 2026-03-01"),
    }),
    answers: pageAnswer,
    handle: async ({ params, services }) => {
      await required(services.database, params.id);
      const done = await removeLens(services.database, params.id, params.since);
      if (!done) throw notFound("lens since", params.since);
      return afterLenses(services, params.id);
    },
  }),
  route({
    method: "post",
    path: "/players/:id/notes",
    access: "player",
    summary: "Add a note for the parents",
    params: idParams,
    body: newNote,
    answers: pageAnswer,
    example: { ...example, body: { date: "2026-10-01", text: "Example note." } },
    handle: async ({ params, body, services }) => {
      await required(services.database, params.id);
      await addNote(services.database, params.id, body);
      return pageOf(services.database, params.id);
    },
  }),
  route({
    method: "delete",
    path: "/players/:id/notes/:note",
    access: "player",
    summary: "Delete a note for the parents",
    params: noteParams,
    answers: pageAnswer,
    handle: async ({ params, services }) => {
      if (!(await removeNote(services.database, params.id, params.note))) throw notFound("note", params.note);
      return pageOf(services.database, params.id);
    },
  }),
  route({
    method: "post",
    path: "/players/:id/merge",
    access: "player",
    summary: "Make one of two players: all that this one has goes to the other, for good",
    params: idParams,
    body: mergeInto,
    answers: pageAnswer,
    handle: async ({ params, body: { into }, services, actor }) => {
      await required(services.database, params.id);
      if (!maySeePlayer(actor, into)) throw notFound("player", into);
      await required(services.database, into);
      if (into === params.id) {
        throw new HttpProblem(
          422,
          "same-player",
          "A player cannot be merged with themselves",
          "into",
          "Choose another player.",
        );
      }
      await mergePlayers(services.database, params.id, into);
      return afterLenses(services, into);
    },
  }),
];

async function required(database: Queryable, id: string): Promise<void> {
  if ((await findRow(database, "players", id)) === null) throw notFound("player", id);
}

async function pageOf(database: Queryable, id: string) {
  const page = await findPlayerPage(database, id);
  if (page === null) throw notFound("player", id);
  return { status: 200 as const, json: page };
}

async function afterLenses(services: Services, id: string) {
  await followLenses(services, id);
  return pageOf(services.database, id);
}
