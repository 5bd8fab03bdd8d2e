/** `/corpora`: fill a corpus with many takes, and read what came of it. */
import { z } from "zod";
import { maySeeCorpus } from "../access.ts";
import {
  corporaSchema,
  corpusFiles,
  corpusSchema,
  failuresSchema,
  jobSchema,
  newCorpus,
  repeatedSchema,
  retriedSchema,
} from "../contract/corpora.ts";
import { idParams } from "../contract/fields.ts";
import { openFolder } from "../corpus/folder.ts";
import { countItems, itemsOf } from "../corpus/intake.ts";
import { HttpProblem, notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import {
  type Corpus,
  createCorpus,
  deleteCorpus,
  findCorpus,
  listCorpora,
  restoreCorpus,
} from "../store/corpora.ts";
import { itemSource, listFailures, retryFailed } from "../store/failures.ts";
import { createJob } from "../store/jobs.ts";
import { checkQuota } from "../store/quota.ts";
import { listRepeated } from "../store/repeats.ts";
import { chartTextOf, listOf, optionsOf } from "./fields.ts";
import { jobOf } from "./jobs.ts";

export const corpusRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/corpora",
    access: "member",
    summary: "All corpora",
    answers: { 200: { description: "corpora", schema: corporaSchema } },
    example: {},
    handle: async ({ services, actor }) => {
      const corpora = await listCorpora(services.database);
      return { status: 200, json: { corpora: corpora.filter((corpus) => maySeeCorpus(actor, corpus.id)) } };
    },
  }),
  route({
    method: "post",
    path: "/corpora",
    access: "owner",
    summary: "Create a corpus",
    body: newCorpus,
    answers: { 201: { description: "the corpus", schema: corpusSchema } },
    example: { body: { name: "Example corpus" } },
    handle: async ({ body, services }) => {
      const id = await createCorpus(services.database, body);
      return { status: 201, json: await corpusOf(services, id), location: `/api/corpora/${id}` };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id",
    access: "corpus",
    summary: "One corpus",
    params: idParams,
    answers: { 200: { description: "the corpus", schema: corpusSchema } },
    handle: async ({ params, services }) => ({ status: 200, json: await corpusOf(services, params.id) }),
  }),
  route({
    method: "delete",
    path: "/corpora/:id",
    access: "owner",
    summary: "Delete a corpus with its takes; it can be restored for a while",
    params: idParams,
    answers: { 204: { description: "deleted" } },
    handle: async ({ params, services }) => {
      if (!(await deleteCorpus(services.database, params.id))) throw notFound("corpus", params.id);
      return { status: 204 };
    },
  }),
  route({
    method: "post",
    path: "/corpora/:id/restore",
    access: "owner",
    summary: "Bring back a deleted corpus with its takes; jobs that were stopped stay stopped",
    params: idParams,
    answers: { 200: { description: "the corpus", schema: corpusSchema } },
    handle: async ({ params, services }) => {
      if (!(await restoreCorpus(services.database, params.id))) throw notFound("deleted corpus", params.id);
      return { status: 200, json: await corpusOf(services, params.id) };
    },
  }),
  route({
    method: "post",
    path: "/corpora/:id/takes",
    access: "owner",
    summary: "Send many takes: files or zips with a manifest, or a folder of the server; answers with a job",
    params: idParams,
    accepts: "forms",
    body: corpusFiles,
    answers: { 202: { description: "the job", schema: jobSchema } },
    handle: async ({ params, body, sent, services, actor }) => {
      const corpus = await corpusOf(services, params.id);
      const bundle = body.folder
        ? await openFolder(folderOf(services), body.folder, body.manifest)
        : await services.unfolder.open(sent.files, body.manifest, sent.folder);
      const items = itemsOf(bundle, {
        chartText: await chartTextOf(body, services.database),
        player: body.player || null,
        tags: listOf(body.tags),
        options: optionsOf(body.options),
      });
      const total = countItems(bundle);
      if (total === 0) {
        throw new HttpProblem(
          400,
          "file-missing",
          "No takes were sent",
          "file",
          "Send MIDI or MusicXML files, or a zip of them, in fields named file.",
        );
      }
      const more = { takes: total, bytes: sent.files.reduce((sum, { size }) => sum + size, 0) };
      await checkQuota(services.database, actor.token, services.quota, more);
      const job = { total, items, repeats: body.repeats === "keep", madeBy: actor.token };
      const id = await createJob(services.database, corpus.id, job, services.queue.add);
      return { status: 202, json: await jobOf(services, id), location: `/api/jobs/${id}` };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id/failures",
    access: "corpus",
    summary: "Files that could not be analysed, with the reason and what to do",
    params: idParams,
    answers: { 200: { description: "failures", schema: failuresSchema } },
    handle: async ({ params, services }) => {
      await corpusOf(services, params.id);
      return { status: 200, json: { failures: await listFailures(services.database, params.id) } };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id/repeated",
    access: "corpus",
    summary: "Files that were left out because the corpus has them already, and the takes that count",
    params: idParams,
    answers: { 200: { description: "files that were left out", schema: repeatedSchema } },
    handle: async ({ params, services }) => {
      await corpusOf(services, params.id);
      return { status: 200, json: { repeated: await listRepeated(services.database, params.id) } };
    },
  }),
  route({
    method: "post",
    path: "/corpora/:id/failures/retry",
    access: "owner",
    summary:
      "Analyse the files that failed once more, in the jobs that they came with; what the manifest got wrong has to be sent anew",
    params: idParams,
    answers: { 202: { description: "how many wait", schema: retriedSchema } },
    handle: async ({ params, services }) => {
      await corpusOf(services, params.id);
      const waiting = await retryFailed(services.database, params.id, services.queue.add);
      return { status: 202, json: { waiting } };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id/failures/:item",
    access: "corpus",
    summary: "A file that could not be analysed, as it came",
    params: idParams.extend({ item: z.string().max(100).describe("id of the file in its job") }),
    answers: { 200: { description: "the bytes", type: "application/octet-stream" } },
    handle: async ({ params, services }) => {
      await corpusOf(services, params.id);
      const source = await itemSource(services.database, params.id, params.item);
      if (source === null) throw notFound("file", params.item);
      return {
        status: 200,
        type: "application/octet-stream",
        fileName: source.fileName,
        body: source.bytes,
      };
    },
  }),
];

/** A problem when there is no such corpus. */
export async function corpusOf(services: Services, id: string): Promise<Corpus> {
  const corpus = await findCorpus(services.database, id);
  if (corpus === null) throw notFound("corpus", id);
  return corpus;
}

function folderOf(services: Services): string {
  if (services.corpusDir !== null) return services.corpusDir;
  throw new HttpProblem(
    403,
    "folders-not-allowed",
    "This service was started without a folder that it may read",
    "folder",
    "Send the files, or start the service with CORPUS_DIR set.",
  );
}
