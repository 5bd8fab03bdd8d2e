/** The takes of a corpus as a table, one row a take: what a paper says of its material. */
import type { Response } from "express";
import { type Cell, csvCell, listCell } from "../../src/export/index.ts";
import type { AnalysisFacts } from "../analysis/task.ts";
import { ROWS_TRAILER, type Source, type TableFormat, writePart } from "./export.ts";
import { after, BEGIN, MEANT, meantValues, ORDER, placeValues } from "./filter.ts";
import { encodeGroup, ParquetFile, parquetCell, schemaOf, tableMetadata } from "./parquet.ts";
import { type CodedColumn, placeOf } from "./parquet-column.ts";

interface TakeRow {
  readonly take: string;
  readonly title: string;
  readonly player: string | null;
  readonly date: string | null;
  readonly tags: readonly string[];
  readonly fileName: string;
  readonly sha256: string;
  readonly chart: string | null;
  readonly facts: AnalysisFacts;
  readonly analysisKey: string;
  readonly analysisVersion: string;
}

interface TakeColumn {
  readonly name: string;
  readonly type: "text" | "integer" | "number" | "date" | "list";
  readonly value: (row: TakeRow) => Cell | readonly string[];
}

export const TAKE_TABLE: readonly TakeColumn[] = [
  { name: "take", type: "text", value: (row) => row.take },
  { name: "title", type: "text", value: (row) => row.title },
  { name: "player", type: "text", value: (row) => row.player },
  { name: "date", type: "date", value: (row) => row.date },
  { name: "tags", type: "list", value: (row) => row.tags },
  { name: "fileName", type: "text", value: (row) => row.fileName },
  { name: "sha256", type: "text", value: (row) => row.sha256 },
  { name: "chartName", type: "text", value: ({ facts }) => facts.chartName },
  { name: "chart", type: "text", value: (row) => row.chart },
  { name: "key", type: "text", value: ({ facts }) => facts.key },
  { name: "meter", type: "text", value: ({ facts }) => facts.meter ?? null },
  { name: "method", type: "text", value: ({ facts }) => facts.method },
  { name: "confidence", type: "number", value: ({ facts }) => facts.confidence },
  { name: "tempo", type: "number", value: ({ facts }) => facts.tempo },
  { name: "seconds", type: "number", value: ({ facts }) => facts.seconds },
  { name: "choruses", type: "integer", value: ({ facts }) => facts.choruses },
  { name: "notes", type: "integer", value: ({ facts }) => facts.soloNotes },
  { name: "warnings", type: "list", value: ({ facts }) => facts.warningCodes ?? null },
  { name: "analysisKey", type: "text", value: (row) => row.analysisKey },
  { name: "analysisVersion", type: "text", value: (row) => row.analysisVersion },
];

/** Takes that are in memory at once, and a row group of Parquet. */
const AT_ONCE = 1000;

/** Writes the table to an answer whose heading is sent, and ends it as `sendTable` does. */
export async function sendTakeTable(source: Source, format: TableFormat, response: Response): Promise<void> {
  const file =
    format === "parquet" ? new ParquetFile(schemaOf(TAKE_TABLE), tableMetadata("takes", TAKE_TABLE)) : null;
  if (file !== null) await writePart(response, file.begin());
  if (format === "csv") await writePart(response, text([TAKE_TABLE.map(({ name }) => csvCell(name))]));
  let count = 0;
  for await (const rows of pagesOf(source)) {
    count += rows.length;
    if (file === null) await writePart(response, format === "csv" ? csv(rows) : ndjson(rows));
    else await writePart(response, file.add(encodeGroup(columnsOf(rows))!));
  }
  if (file !== null) await writePart(response, file.end());
  response.addTrailers({ [ROWS_TRAILER]: String(count) });
  response.end();
}

async function* pagesOf({ database, corpus, filter }: Source): AsyncGenerator<TakeRow[]> {
  for (let last = BEGIN; ; ) {
    const rows: TakeRow[] = await database.query<TakeRow>(
      `select t.id as take, t.title, p.name as player, to_char(t.played_on, 'YYYY-MM-DD') as date, t.tags,
         t.file_name as "fileName", t.source as sha256, t.chart_text as chart, a.facts, a.key as "analysisKey",
         a.version as "analysisVersion"
       ${MEANT} and ${after(11)} order by ${ORDER} limit ${AT_ONCE}`,
      [...meantValues(corpus, filter), ...placeValues(last)],
    );
    if (rows.length > 0) yield rows;
    if (rows.length < AT_ONCE) return;
    const { sha256: source, analysisKey: key, take } = rows.at(-1)!;
    last = { source, key, take };
  }
}

/** Lists stay whole: as JSON where a cell holds one text. */
function cell(value: Cell | readonly string[]): Cell {
  return isList(value) ? JSON.stringify(value) : value;
}

function csv(rows: readonly TakeRow[]): Uint8Array {
  return text(rows.map((row) => TAKE_TABLE.map(({ value }) => csvCell(cell(value(row))))));
}

function text(lines: readonly (readonly string[])[]): Uint8Array {
  return Buffer.from(lines.map((line) => `${line.join(",")}\r\n`).join(""));
}

function ndjson(rows: readonly TakeRow[]): Uint8Array {
  const object = (row: TakeRow) =>
    Object.fromEntries(TAKE_TABLE.map(({ name, value }) => [name, value(row)]));
  return Buffer.from(rows.map((row) => `${JSON.stringify(object(row))}\n`).join(""));
}

function columnsOf(rows: readonly TakeRow[]): CodedColumn[] {
  return TAKE_TABLE.map(({ name, type, value }) => {
    // A list is told apart by its text, as a cell of a table is.
    const places = new Map<Cell, number>();
    const codes = rows.map((row) => {
      const of = value(row);
      return placeOf(isList(of) ? listCell(of) : of, places);
    });
    const values = [...places.keys()].map((one) => parquetCell(type, one));
    return { name, type, values, codes, statistics: false };
  });
}

function isList(value: Cell | readonly string[]): value is readonly string[] {
  return typeof value === "object" && value !== null;
}
