/** `/lens-measures`: what a lens may ask for, and the built-in lenses as patterns for one's own. */
import { z } from "zod";
import { lensSchema } from "../../src/account.ts";
import { LENS_MEASURES, LENSES } from "../../src/lens/index.ts";
import { type Route, route } from "../route.ts";

export const lensMeasureRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/lens-measures",
    access: "member",
    summary: "The numbers that a lens may ask for, with their units, and the built-in lenses",
    answers: {
      200: {
        description: "measures and lenses",
        schema: z.object({
          measures: z.array(
            z.looseObject({
              id: z.string(),
              name: z.string(),
              unit: z.string().describe("unit of its bounds; a share is given from 0 to 1"),
            }),
          ),
          lenses: z.array(lensSchema),
        }),
      },
    },
    example: {},
    handle: async () => ({ status: 200, json: { measures: LENS_MEASURES, lenses: LENSES } }),
  }),
];
