/** Corpora, the jobs that fill them, and what could not be read. */
import { z } from "zod";
import type { Frozen } from "../../src/account.ts";
import { formFields } from "./fields.ts";
import { filterFields } from "./filter.ts";
import { patternFields } from "./pattern.ts";

export const corpusSchema = z
  .object({
    id: z.string().describe("id of the corpus"),
    name: z.string().describe("its name"),
    note: z.string().describe("what its owner notes about it"),
    takes: z.int().describe("number of its takes"),
    waiting: z.int().describe("number of files that wait to be analysed"),
    failed: z.int().describe("number of files that could not be analysed"),
  })
  .meta({ id: "Corpus", description: "many takes that are studied together" });

export const corporaSchema = z
  .object({ corpora: z.array(corpusSchema).describe("all corpora within reach, by name") })
  .meta({ id: "Corpora", description: "all corpora" });

export const newCorpus = z.object({
  name: z.string().trim().min(1).max(200).describe("its name"),
  note: z.string().max(4000).default("").describe("what is to be noted about it"),
});

export const corpusFiles = formFields.extend({
  manifest: z
    .string()
    .max(50_000_000)
    .optional()
    .describe(
      "what each file is, as JSON or CSV with the columns file, chart or form and key, player, title, date, tags; may also come as a file",
    ),
  player: z.string().trim().max(200).optional().describe("name of the player of all files that name none"),
  tags: z.string().max(1000).optional().describe("tags of all files, separated by commas"),
  repeats: z
    .enum(["once", "keep"])
    .default("once")
    .describe(
      "what becomes of a file that is in the corpus already, byte for byte, or comes twice: once leaves it out and counts it as repeated, keep makes it a take of its own",
    ),
  folder: z
    .string()
    .max(1000)
    .optional()
    .describe("a folder below the one allowed at the start (CORPUS_DIR)"),
});

const jobState = z.enum(["waiting", "running", "done", "cancelled"]);

export const jobSchema = z
  .object({
    id: z.string().describe("id of the job"),
    corpusId: z.string().describe("id of the corpus that it fills"),
    state: jobState.describe("how far it is"),
    total: z.int().describe("number of its files"),
    done: z.int().describe("number of files that were analysed"),
    failed: z.int().describe("number of files that could not be analysed"),
    cancelled: z.int().describe("number of files that were left when it was stopped"),
    repeated: z.int().describe("number of files that were left out because the corpus has them already"),
    seconds: z.number().describe("seconds since it was made, or that it took"),
  })
  .meta({ id: "Job", description: "files on their way into a corpus" });

export const jobProgressSchema = jobSchema
  .extend({
    takesPerSecond: z.number().describe("number of files a second since the first report"),
    secondsLeft: z.number().nullable().describe("seconds that are left at that rate; null when not known"),
  })
  .meta({ id: "JobProgress", description: "what the event `progress` of a job says" });

const failureSchema = z
  .object({
    item: z.string().describe("id of the file in its job"),
    job: z.string().describe("id of the job"),
    fileName: z.string().describe("name of the file"),
    code: z.string().describe("code of the problem, one of those listed in the reference"),
    message: z.string().describe("what is wrong, in one sentence"),
    where: z.string().nullable().describe("the place in the file; null when it is all of it"),
    todo: z.string().describe("what to do about it"),
  })
  .meta({ id: "Failure", description: "a file that could not be analysed" });

export const failuresSchema = z
  .object({ failures: z.array(failureSchema).describe("files that could not be analysed") })
  .meta({ id: "Failures", description: "files that could not be analysed, with the reason and what to do" });

const repeatedFileSchema = z
  .object({
    item: z.string().describe("id of the file in its job"),
    job: z.string().describe("id of the job"),
    fileName: z.string().describe("name of the file"),
    take: z.string().describe("id of the take that counts, once it is analysed"),
  })
  .meta({ id: "RepeatedFile", description: "a file that was left out because the corpus has it already" });

export const repeatedSchema = z
  .object({
    repeated: z.array(repeatedFileSchema).describe("files that were left out, the latest last"),
  })
  .meta({ id: "Repeated", description: "files that were left out because the corpus has them already" });

export const retriedSchema = z
  .object({ waiting: z.int().describe("number of files that wait to be analysed again") })
  .meta({ id: "Retried", description: "failed files that are tried again" });

export const corpusSearch = patternFields.extend({
  filter: filterFields.default({}).describe("which takes of the corpus are searched; all when left out"),
});

export type CorpusRow = Frozen<z.output<typeof corpusSchema>>;
export type JobRow = Frozen<z.output<typeof jobSchema>>;
export type JobProgress = Frozen<z.output<typeof jobProgressSchema>>;
export type Failure = Frozen<z.output<typeof failureSchema>>;
export type RepeatedFile = Frozen<z.output<typeof repeatedFileSchema>>;
export type CorpusSearch = Frozen<z.input<typeof corpusSearch>>;
