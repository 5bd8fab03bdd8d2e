/** Cells of text tables, made from pieces of JSON. */
import { type Cell, type Column, csvCell, itemsOfCell } from "../../src/export/index.ts";
import type { TokenColumn } from "./block-tokens.ts";
import { type EncodedTexts, TextsInBytes } from "./text-rows.ts";

const code = (sign: string) => sign.charCodeAt(0);
const QUOTE = code('"');
const BACKSLASH = code("\\");
const COMMA = code(",");
const NULL = code("n");
/** Signs that a formula of a spreadsheet begins with, and the space, which PLAIN of CSV text knows. */
const FORMULA = new Set([..."=@+-"].map(code));

/** What each value of the column is in a row of NDJSON, with the name before it. */
export function jsonTexts(before: string, type: Column<never>["type"], column: TokenColumn): EncodedTexts {
  const { bytes, places } = column;
  const texts = new TextsInBytes(before, places.length / 2, roomFor(column, before));
  for (let i = 0; i < places.length; i += 2) {
    if (type === "list") texts.addText(JSON.stringify(itemsOfCell(valueAt(column, i))));
    else texts.addBytes(bytes, places[i]!, places[i + 1]!);
  }
  return texts.whole();
}

/** What each value of the column is in a row of CSV, with the comma before it. */
export function csvTexts(before: string, column: TokenColumn): EncodedTexts {
  const { bytes, places } = column;
  const texts = new TextsInBytes(before, places.length / 2, roomFor(column, before));
  for (let i = 0; i < places.length; i += 2) {
    const [from, to] = [places[i]!, places[i + 1]!];
    if (bytes[from] === NULL) texts.addText("");
    else if (bytes[from] !== QUOTE) texts.addBytes(bytes, from, to);
    else {
      switch (quotingOf(bytes, from + 1, to - 1)) {
        case "none":
          texts.addBytes(bytes, from + 1, to - 1);
          break;
        case "as JSON":
          texts.addBytes(bytes, from, to);
          break;
        case "to be seen":
          texts.addText(csvCell(valueAt(column, i)));
      }
    }
  }
  return texts.whole();
}

/**
 * How a text of JSON stands in a cell of CSV. A text without escapes holds neither quotes nor line ends: it stands as
 * it is, or between the same quotes when it holds a comma.
 */
function quotingOf(bytes: Buffer, from: number, to: number): "none" | "as JSON" | "to be seen" {
  if (FORMULA.has(bytes[from]!)) return "to be seen";
  let comma = false;
  for (let at = from; at < to; at++) {
    if (bytes[at] === BACKSLASH) return "to be seen";
    if (bytes[at] === COMMA) comma = true;
  }
  return comma ? "as JSON" : "none";
}

function valueAt({ bytes, places }: TokenColumn, i: number): Cell {
  return JSON.parse(bytes.toString("utf8", places[i]!, places[i + 1]!)) as Cell;
}

/** Bytes that a column's texts take, but for lists, which grow. */
function roomFor({ places }: TokenColumn, before: string): number {
  const values = places.length / 2;
  return values === 0 ? 0 : places.at(-1)! - places[0]! + values * (3 * before.length + 2);
}
