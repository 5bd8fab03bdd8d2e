/**
 * What several parts of the account are made of. Each field of the account is described where it stands, with unit,
 * range and meaning: the description is published as JSON Schema and printed in the reference.
 */
import { z } from "zod";

export const share = z.number().min(0).max(1);

export const shares = z.record(z.string(), share);

export const noteId = z.string();

export const finger = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]);

export const hand = z.enum(["right", "left"]);

/** Where in the form something stands or begins: the same three fields wherever they are. */
export const chorusField = z.int().describe("chorus, number from 1; a pickup belongs to the first");
export const barField = z
  .int()
  .describe("bar of the chart, number from 1; 0 and below in a pickup, beyond the chart's last in an ending");
export const beatField = z
  .number()
  .nullable()
  .describe("beat of the bar in the meter's own unit, 1 the first; null in rubato");

export const warningSchema = z
  .object({
    code: z.string().describe("stable name for programs, one of those listed in the reference"),
    message: z.string().describe("one sentence for people: what was met, and what was done about it"),
    where: z
      .string()
      .nullable()
      .describe('place in the source ("track 2, tick 480", "part P1, bar 12"); null when it is all of it'),
  })
  .meta({ id: "Warning", description: "something that was repaired, left out or decided by default" });

/** A day in seconds: longer than any take, and short enough that no table over time grows out of bounds. */
export const LONGEST = 86_400;

/** More choruses, bars and beats than a day of playing holds. */
export const MOST_PLACES = 10_000;

export const anchorSchema = z
  .object({
    seconds: z
      .number()
      .min(-LONGEST)
      .max(LONGEST)
      .describe("the pinned moment, in seconds from the start of the file"),
    chorus: z.int().min(0).max(MOST_PLACES).describe("chorus that it is pinned to, number from 1"),
    bar: z
      .int()
      .min(-MOST_PLACES)
      .max(MOST_PLACES)
      .describe("bar of the chart, number from 1; 0 and below before the first bar line"),
    beat: z
      .number()
      .min(-MOST_PLACES)
      .max(MOST_PLACES)
      .describe("beat of the bar in the meter's own unit, 1 the first"),
  })
  .meta({ id: "Anchor", description: "a moment that somebody pinned to a place on the chart" });

/** An account is never changed once it is made. */
export type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;
