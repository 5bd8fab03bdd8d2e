/** Players, charts, shapes and ideas: small rows with a name. */
import { z } from "zod";
import { type Frozen, handShapeSchema, lensSchema } from "../../src/account.ts";
import { patternSchema } from "./pattern.ts";

const id = z.string().describe("its id");
const name = z.string().describe("its name");
const yours = z.boolean().describe("true where the caller may change it: who made it, and owners");
const givenName = z.string().trim().min(1).max(200).describe("its name");

export const playerSchema = z
  .object({ id, name, note: z.string().describe("what the teacher notes about the player") })
  .meta({ id: "Player", description: "somebody whose takes are kept" });

export const newPlayer = z.object({
  name: givenName,
  note: z.string().max(2000).default("").describe("what the teacher notes about the player"),
});

export const storedChartSchema = z
  .object({ id, name, text: z.string().describe("chart text in the house style"), yours })
  .meta({ id: "StoredChart", description: "a chart that is kept" });

export const newChart = z.object({
  name: givenName,
  text: z.string().min(1).max(20_000).describe("chart text"),
});

export const storedShapeSchema = z
  .object({ id, name, shape: handShapeSchema.describe("the shape"), yours })
  .meta({ id: "StoredShape", description: "a hand shape of the teacher's own" });

export const newShape = z.object({ name: givenName, shape: handShapeSchema.describe("the shape") });

export const builtInShapesSchema = z
  .object({ shapes: z.array(handShapeSchema).describe("the shapes") })
  .meta({ id: "BuiltInShapes", description: "the shapes that are built in" });

export const storedIdeaSchema = z
  .object({ id, name, pattern: patternSchema.describe("its pattern"), yours })
  .meta({ id: "StoredIdea", description: "an idea that somebody has named, to be found again" });

export const newIdea = z.object({
  name: givenName,
  pattern: patternSchema.omit({ notes: true }).describe("its pattern, without the number of notes"),
});

export const storedLensSchema = z
  .object({ id, name, lens: lensSchema.describe("the lens"), yours })
  .meta({ id: "StoredLens", description: "a lens of the teacher's own" });

export const newLens = z.object({ name: givenName, lens: lensSchema.describe("the lens") });

export type PlayerRow = Frozen<z.output<typeof playerSchema>>;
export type ShapeRow = Frozen<z.output<typeof storedShapeSchema>>;
export type IdeaRow = Frozen<z.output<typeof storedIdeaSchema>>;
export type LensRow = Frozen<z.output<typeof storedLensSchema>>;
