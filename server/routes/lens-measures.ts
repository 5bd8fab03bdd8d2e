/** `/lens-measures`: what a lens may ask for, and the built-in lenses as patterns for one's own. */
import { LENS_MEASURES, LENSES } from "../../src/lens/index.ts";
import { lensMeasuresSchema } from "../contract/player-page.ts";
import { type Route, route } from "../route.ts";

export const lensMeasureRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/lens-measures",
    access: "member",
    summary: "The numbers that a lens may ask for, with their units, and the built-in lenses",
    answers: { 200: { description: "measures and lenses", schema: lensMeasuresSchema } },
    example: {},
    handle: async () => ({ status: 200, json: { measures: LENS_MEASURES, lenses: LENSES } }),
  }),
];
