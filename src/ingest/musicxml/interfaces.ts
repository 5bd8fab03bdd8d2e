/**
 * musicxml-interfaces, loaded so that it reads elements which we have parsed ourselves.
 *
 * The package's own way of parsing does not work and is not safe: on Node it wants `node.children`, which its parser
 * lacks, and starts the external program xsltproc, through which entities could be fetched; in a worker it has no
 * parser at all; and its conversion to timewise order pairs bars by their printed numbers. What is good in it, the
 * typed reading of elements, needs none of that. So its browser branch is taken everywhere, with a "parser" that
 * hands back the element it is given; documents are parsed by `read-document.ts`, bar by bar.
 *
 * The order of these three imports matters.
 */
import "./interfaces-open.ts";
import { parseAttributes, parseBarline, parseHarmony, parseNote } from "musicxml-interfaces";
import "./interfaces-close.ts";
import type { Attributes, Barline, Harmony, Note } from "musicxml-interfaces";
import type { XmlElement } from "./element.ts";

export type {
  Attributes,
  Barline,
  Harmony,
} from "musicxml-interfaces";

type Reader<T> = (element: XmlElement) => T;

/** The package types its readers for text; ours are given the element (see above). */
function reader<T>(read: (xml: string) => T): Reader<T> {
  return read as unknown as Reader<T>;
}

export const readNote: Reader<Note> = reader(parseNote);
export const readHarmony: Reader<Harmony> = reader(parseHarmony);
export const readAttributes: Reader<Attributes> = reader(parseAttributes);
export const readBarline: Reader<Barline> = reader(parseBarline);
