/** What several parts of the account are made of. */
import { z } from "zod";

export const share = z.number().min(0).max(1);

export const shares = z.record(z.string(), share);

export const noteId = z.string();

export const finger = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]);

export const hand = z.enum(["right", "left"]);

export const warningSchema = z.object({
  code: z.string(),
  message: z.string(),
  where: z.string().nullable(),
});

/** A day in seconds: longer than any take, and short enough that no table over time grows out of bounds. */
const LONGEST = 86_400;

/** More choruses, bars and beats than a day of playing holds. */
export const MOST_PLACES = 10_000;

export const anchorSchema = z.object({
  seconds: z.number().min(-LONGEST).max(LONGEST),
  chorus: z.int().min(0).max(MOST_PLACES),
  bar: z.int().min(-MOST_PLACES).max(MOST_PLACES),
  beat: z.number().min(-MOST_PLACES).max(MOST_PLACES),
});

/** An account is never changed once it is made. */
export type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;
