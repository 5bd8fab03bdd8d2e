/** Charts before they are kept: forms, chart text as it is read, and what a file says of its chart. */
import { z } from "zod";
import { type Frozen, meterSchema, warningSchema } from "../../src/account.ts";

const barChords = z.string().describe("its chords as in chart text");
const barNumber = z.int().describe("bar of the chart, number from 1");

const formSchema = z
  .object({
    id: z.string().describe("id of the form"),
    name: z.string().describe("its name"),
    bars: z.int().describe("number of its bars"),
    mode: z.enum(["major", "minor"]).describe("mode of a key that does not say its own"),
  })
  .meta({ id: "Form", description: "a built-in form" });

export const formsSchema = z
  .object({ forms: z.array(formSchema).describe("the forms, in the order in which they are offered") })
  .meta({ id: "Forms", description: "all built-in forms" });

export const readChartSchema = z
  .object({
    text: z.string().describe("the chart in the house style"),
    key: z.string().describe('key in which it begins: "F", "Gm"'),
    bars: z.int().describe("number of bars of one chorus"),
    name: z.string().nullable().describe("its name; null for none"),
    meter: meterSchema.describe("its time signature"),
    played: z
      .array(
        z.object({
          bar: barNumber,
          chords: barChords,
          key: z.string().describe('key in which it stands: "F", "Gm"'),
        }),
      )
      .describe("the bars of one chorus in the order of playing"),
    warnings: z
      .array(warningSchema)
      .describe("what was understood rather than read; each asks for what would make it plain"),
  })
  .meta({ id: "ReadChart", description: "a chart as it was read" });

const sure = z.number().min(0).max(1);

const proposedChartSchema = z
  .object({
    description: z.string().describe('"12-bar blues in F"'),
    text: z.string().describe("chart text, to be sent as `chart`"),
    key: z.string().describe('its key: "F", "Gm"'),
    meter: meterSchema.describe("its time signature"),
    idiom: z.enum(["blues", "standard"]).describe("whether dominants are at rest (blues) or lead on"),
    form: z.string().nullable().describe("id of a built-in form, see GET /forms; null for none"),
    confidence: sure.describe("how sure it is, 0 to 1; 1 for what the file prints"),
    bars: z
      .array(
        z.object({ bar: barNumber, chords: barChords, confidence: sure.describe("how sure it is, 0 to 1") }),
      )
      .describe("its bars, each with how sure it is"),
  })
  .meta({ id: "ProposedChart", description: "a chart that a take may be played on" });

export const proposalSchema = z
  .object({
    source: z.enum(["source harmony", "source text", "comping"]).describe("what the charts were read from"),
    charts: z.array(proposedChartSchema).min(1).describe("the charts, the likeliest first"),
  })
  .meta({ id: "ChartProposal", description: "charts to choose from and to correct" });

export type FormRow = Frozen<z.output<typeof formSchema>>;
export type ChartAsRead = Frozen<z.output<typeof readChartSchema>>;
export type ProposedChart = Frozen<z.output<typeof proposedChartSchema>>;
export type ChartProposal = Frozen<z.output<typeof proposalSchema>>;
