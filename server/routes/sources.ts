/** `/takes/:id/source` and `/takes/:id/sound`: what a take was read from; the recording itself only where it was kept. */
import { z } from "zod";
import { soundKind } from "../../src/listen/index.ts";
import { idParams } from "../contract/fields.ts";
import { notFound } from "../errors.ts";
import { sourceName } from "../listen/source-name.ts";
import { type Route, route } from "../route.ts";
import { checkQuota } from "../store/quota.ts";
import { findSound, findSource, forgetSound, keepSound } from "../store/sources.ts";
import { findTake } from "../store/takes.ts";
import { oneSound } from "./fields.ts";

const TYPES: Readonly<Record<string, string>> = {
  WAVE: "audio/wav",
  MP3: "audio/mpeg",
  FLAC: "audio/flac",
  Ogg: "audio/ogg",
  "MPEG-4": "audio/mp4",
  AAC: "audio/aac",
  AIFF: "audio/aiff",
  WebM: "audio/webm",
};

export const sourceRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/takes/:id/source",
    access: "take",
    summary: "The file as it came",
    params: idParams,
    answers: { 200: { description: "the bytes", type: "application/octet-stream" } },
    example: { params: { id: "maren-quick-change" } },
    handle: async ({ params, services }) => {
      const take = await findTake(services.database, params.id);
      if (take === null) throw notFound("take", params.id);
      const bytes = await findSource(services.database, take.id);
      if (bytes === null) throw notFound("take", params.id);
      return {
        status: 200,
        type: "application/octet-stream",
        fileName: sourceName(take.fileName, bytes),
        body: bytes,
      };
    },
  }),
  route({
    method: "get",
    path: "/takes/:id/sound",
    access: "take",
    summary: "The recording of a take that was heard, where it was kept",
    params: idParams,
    answers: {
      200: { description: "the recording", type: Object.values(TYPES) },
      404: { description: "none was kept" },
    },
    example: { params: { id: "maren-quick-change" } },
    handle: async ({ params, services }) => {
      const sound = await findSound(services.database, params.id);
      if (sound === null) throw notFound("sound of the take", params.id);
      const type = TYPES[soundKind(sound.bytes) ?? ""] ?? "application/octet-stream";
      return { status: 200, type, fileName: sound.fileName, body: sound.bytes };
    },
  }),
  route({
    method: "put",
    path: "/takes/:id/sound",
    access: "take",
    summary: "Keep the recording of a take",
    params: idParams,
    accepts: "form",
    body: z.object({}),
    answers: { 204: { description: "kept" } },
    handle: async ({ params, files, services, actor }) => {
      if ((await findTake(services.database, params.id)) === null) throw notFound("take", params.id);
      const file = oneSound(files, "Send the recording.");
      const more = { takes: 0, bytes: file.bytes.length };
      await checkQuota(services.database, actor.token, services.quota, more);
      await keepSound(services.database, params.id, { fileName: file.name, bytes: file.bytes });
      return { status: 204 };
    },
  }),
  route({
    method: "delete",
    path: "/takes/:id/sound",
    access: "take",
    summary: "Forget the recording of a take; its notes stay",
    params: idParams,
    answers: { 204: { description: "forgotten" } },
    handle: async ({ params, services }) => {
      if (!(await forgetSound(services.database, params.id))) throw notFound("sound of the take", params.id);
      return { status: 204 };
    },
  }),
];
