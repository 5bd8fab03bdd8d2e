/** What is made of the account of a take: its notes as a table, the annotated score, the solo as MIDI. */
import { z } from "zod";
import { annotatedScore, NOTES, notesCsv, notesNdjson, soloMidi } from "../../src/export/index.ts";
import { openAccount } from "../analysis/analyst.ts";
import { idParams } from "../contract/fields.ts";
import { takeNotesSchema } from "../contract/takes.ts";
import { TABLE_FORMATS } from "../corpus/export.ts";
import { parquetOf } from "../corpus/parquet.ts";
import { rowSchema } from "../reference/columns.ts";
import { type Route, route } from "../route.ts";
import { account } from "./takes.ts";

const example = { params: { id: "maren-quick-change" } };

export const takeFileRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/takes/:id/notes",
    access: "take",
    summary: "Every note as a table",
    params: idParams,
    query: z.object({
      format: z.enum(["json", "csv", "ndjson", "parquet"]).default("json").describe("format of the table"),
    }),
    answers: {
      200: {
        description: "the notes; columns of tables are listed in the reference",
        schema: takeNotesSchema,
        type: Object.values(TABLE_FORMATS),
        line: rowSchema("TakeNoteRow", "notes", NOTES.columns),
      },
    },
    example,
    handle: async ({ params, query, services }) => {
      const analysis = openAccount(await account(services, params.id));
      switch (query.format) {
        case "json":
          return { status: 200, json: { notes: analysis.notes } };
        case "csv":
          return { status: 200, type: "text/csv", fileName: `${params.id}.csv`, body: notesCsv(analysis) };
        case "ndjson":
          return {
            status: 200,
            type: "application/x-ndjson",
            fileName: `${params.id}.ndjson`,
            body: notesNdjson(analysis),
          };
        case "parquet":
          return {
            status: 200,
            type: TABLE_FORMATS.parquet,
            fileName: `${params.id}.parquet`,
            body: parquetOf("notes", analysis),
          };
      }
    },
  }),
  route({
    method: "get",
    path: "/takes/:id/score.musicxml",
    access: "take",
    summary: "The solo as notation, with chords, fingering and roles",
    params: idParams,
    answers: { 200: { description: "MusicXML", type: "application/vnd.recordare.musicxml+xml" } },
    example,
    handle: async ({ params, services }) => ({
      status: 200,
      type: "application/vnd.recordare.musicxml+xml",
      fileName: `${params.id}.musicxml`,
      body: annotatedScore(openAccount(await account(services, params.id))),
    }),
  }),
  route({
    method: "get",
    path: "/takes/:id/solo.mid",
    access: "take",
    summary: "The solo alone as MIDI",
    params: idParams,
    answers: { 200: { description: "MIDI", type: "audio/midi" } },
    example,
    handle: async ({ params, services }) => ({
      status: 200,
      type: "audio/midi",
      fileName: `${params.id}.mid`,
      body: soloMidi(openAccount(await account(services, params.id))),
    }),
  }),
];
