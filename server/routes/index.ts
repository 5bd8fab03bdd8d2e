/** All routes below `/api`, one file a resource. */
import type { Route } from "../route.ts";
import { analyseRoutes } from "./analyse.ts";
import { corpusRoutes } from "./corpora.ts";
import { formRoutes } from "./forms.ts";
import { healthRoutes } from "./health.ts";
import { jobRoutes } from "./jobs.ts";
import { namedRoutes } from "./named.ts";
import { takeRoutes } from "./takes.ts";
import { tokenRoutes } from "./tokens.ts";

export const routes: readonly Route[] = [
  ...healthRoutes,
  ...analyseRoutes,
  ...takeRoutes,
  ...namedRoutes,
  ...formRoutes,
  ...corpusRoutes,
  ...jobRoutes,
  ...tokenRoutes,
];
