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

export const anchorSchema = z.object({
  seconds: z.number(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number(),
});

/** An account is never changed once it is made. */
export type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;
