/** `/corpora/:id/...`: what came of a corpus, summed up, as tables, and searched. */
import type { Request, Response } from "express";
import { z } from "zod";
import { TABLE_NAMES } from "../../src/export/index.ts";
import { corpusSearch } from "../contract/corpora.ts";
import {
  citationSchema,
  groupsBody,
  groupsSchema,
  measureSpreadsSchema,
  spreadsQuery,
  summaryQuery,
  summarySchema,
  vocabularyQuery,
  vocabularySchema,
} from "../contract/corpus-results.ts";
import { idParams } from "../contract/fields.ts";
import { filterFields } from "../contract/filter.ts";
import { foundSchema } from "../contract/pattern.ts";
import { citationOf } from "../corpus/citation.ts";
import { ROWS_TRAILER, sendTable, TABLE_FORMATS, type TableFormat } from "../corpus/export.ts";
import { compareGroups } from "../corpus/groups.ts";
import { measureSpreadsOf } from "../corpus/measure-spread.ts";
import { corpusColumns } from "../corpus/parquet.ts";
import { spellHits } from "../corpus/spell-hits.ts";
import { summarise } from "../corpus/summary.ts";
import { sendTakeTable, TAKE_TABLE } from "../corpus/take-table.ts";
import { vocabularyOf } from "../corpus/vocabulary.ts";
import { rowSchema } from "../reference/columns.ts";
import { type Route, route } from "../route.ts";
import { corpusOf } from "./corpora.ts";
import { patternFrom } from "./pattern.ts";

const formats = Object.keys(TABLE_FORMATS) as [TableFormat, ...TableFormat[]];

const tableQuery = filterFields.extend({
  format: z.enum(formats).default("csv").describe("format of the table"),
});

/**
 * Sends the heading of a table. The trailer is announced where the answer comes in chunks alone: not to HTTP/1.0, and not
 * to a question for the heading.
 *
 * @returns false where the heading is all that was asked for
 */
function beginTable(request: Request, response: Response, table: string, format: TableFormat): boolean {
  const headOnly = request.method === "HEAD";
  const chunked = !headOnly && request.httpVersion !== "1.0";
  response.writeHead(200, {
    "content-type": TABLE_FORMATS[format],
    ...(chunked && { trailer: ROWS_TRAILER }),
    "content-disposition": `attachment; filename="${table}.${format}"`,
  });
  if (headOnly) response.end();
  return !headOnly;
}

export const corpusResultRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/corpora/:id/summary",
    access: "corpus",
    summary: "Counts, roles and measures of a corpus or a part of it, with one breakdown",
    params: idParams,
    query: summaryQuery,
    answers: { 200: { description: "the summary", schema: summarySchema } },
    handle: async ({ params, query: { by, ...filter }, services }) => {
      const corpus = await corpusOf(services, params.id);
      return { status: 200, json: await summarise(services.database, corpus.id, filter, by ?? null) };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id/standing",
    access: "corpus",
    summary: "How each measure is spread over the takes, and which takes stand apart in it (robust z-scores)",
    params: idParams,
    query: spreadsQuery,
    answers: { 200: { description: "the spreads and the takes", schema: measureSpreadsSchema } },
    handle: async ({ params, query: { limit, ...filter }, services }) => {
      const corpus = await corpusOf(services, params.id);
      return { status: 200, json: await measureSpreadsOf(services.database, corpus.id, filter, limit) };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id/takes",
    access: "corpus",
    summary:
      "All takes of a corpus as a table: file, hash, chart, method, confidence, warnings, versions; streamed",
    params: idParams,
    query: tableQuery,
    answers: {
      200: {
        description: "the table takes, its columns are listed in the reference",
        type: Object.values(TABLE_FORMATS),
        line: rowSchema("TakesRow", "takes", TAKE_TABLE),
      },
    },
    handle: async ({ params, query: { format, ...filter }, services }) => {
      const { id: corpus } = await corpusOf(services, params.id);
      return {
        stream: async (request, response) => {
          if (!beginTable(request, response, "takes", format)) return;
          const { database, analyst } = services;
          await sendTakeTable({ database, analyst, corpus, filter }, format, response);
        },
      };
    },
  }),
  ...TABLE_NAMES.map((table) =>
    route({
      method: "get",
      path: `/corpora/:id/${table}`,
      access: "corpus",
      summary: `All ${table} of a corpus as a table, streamed`,
      params: idParams,
      query: tableQuery,
      answers: {
        200: {
          description: `the table ${table}, its columns are listed in the reference`,
          type: Object.values(TABLE_FORMATS),
          line: rowSchema(`${table[0]!.toUpperCase()}${table.slice(1)}Row`, table, corpusColumns(table)),
        },
      },
      handle: async ({ params, query: { format, ...filter }, services }) => {
        const corpus = await corpusOf(services, params.id);
        return {
          stream: async (request, response) => {
            if (!beginTable(request, response, table, format)) return;
            const { database, analyst } = services;
            await sendTable({ database, analyst, corpus: corpus.id, filter }, table, format, response);
          },
        };
      },
    }),
  ),
  route({
    method: "post",
    path: "/corpora/:id/search",
    keeps: false,
    access: "corpus",
    summary: "Where a pattern is played in a corpus, the closest first",
    params: idParams,
    body: corpusSearch,
    answers: {
      200: {
        description: "hits, the titles of their takes, and the pattern as it was read",
        schema: foundSchema,
      },
    },
    handle: async ({ params, body, services }) => {
      const corpus = await corpusOf(services, params.id);
      const pattern = patternFrom(body);
      const { hits, found } = await services.search.ask({
        corpus: corpus.id,
        pattern,
        maxEdits: body.maxEdits,
        limit: body.limit,
        filter: body.filter,
      });
      const named = await services.database.query<{ id: string; title: string }>(
        "select id, title from takes where id = any($1::text[])",
        [[...new Set(hits.map((hit) => hit.take))]],
      );
      const titles = Object.fromEntries(named.map(({ id, title }) => [id, title]));
      return {
        status: 200,
        json: { found, hits: await spellHits(services.database, hits), titles, pattern },
      };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id/vocabulary",
    access: "corpus",
    summary: "Ideas by the number of takes in which they are motifs",
    params: idParams,
    query: vocabularyQuery,
    answers: { 200: { description: "the vocabulary", schema: vocabularySchema } },
    handle: async ({ params, query: { viewpoint, limit, ...filter }, services }) => {
      const corpus = await corpusOf(services, params.id);
      return {
        status: 200,
        json: await vocabularyOf(services.database, corpus.id, filter, viewpoint ?? null, limit),
      };
    },
  }),
  route({
    method: "post",
    path: "/corpora/:id/compare",
    keeps: false,
    access: "corpus",
    summary: "Two parts of a corpus against each other; takes are the units of the statistics",
    params: idParams,
    body: groupsBody,
    answers: { 200: { description: "the comparison", schema: groupsSchema } },
    handle: async ({ params, body, services }) => {
      const corpus = await corpusOf(services, params.id);
      return { status: 200, json: await compareGroups(services.database, corpus.id, body, body.seed) };
    },
  }),
  route({
    method: "get",
    path: "/corpora/:id/citation",
    access: "corpus",
    summary: "Versions, options and hashes, so that a paper can be repeated",
    params: idParams,
    query: filterFields,
    answers: { 200: { description: "the citation", schema: citationSchema } },
    handle: async ({ params, query, services }) => {
      const corpus = await corpusOf(services, params.id);
      return { status: 200, json: await citationOf(services.database, corpus.id, corpus.name, query) };
    },
  }),
];
