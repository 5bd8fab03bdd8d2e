/** All routes below `/api`, one file a resource. */
import type { Route } from "../route.ts";
import { analyseRoutes } from "./analyse.ts";
import { auditRoutes } from "./audit.ts";
import { backupRoutes } from "./backup.ts";
import { classRoutes } from "./class.ts";
import { compareRoutes } from "./compare.ts";
import { corpusRoutes } from "./corpora.ts";
import { corpusResultRoutes } from "./corpus-results.ts";
import { deletedRoutes } from "./deleted.ts";
import { feedbackRoutes } from "./feedback.ts";
import { formRoutes } from "./forms.ts";
import { healthRoutes } from "./health.ts";
import { jobRoutes } from "./jobs.ts";
import { lensMeasureRoutes } from "./lens-measures.ts";
import { lessonRoutes } from "./lessons.ts";
import { libraryRoutes } from "./library.ts";
import { listenRoutes } from "./listen.ts";
import { metricsRoutes } from "./metrics.ts";
import { pageRoutes } from "./page.ts";
import { placementRoutes } from "./placements.ts";
import { playerPageRoutes } from "./player-page.ts";
import { playerRoutes } from "./players.ts";
import { practiceRoutes } from "./practice.ts";
import { proposalRoutes } from "./proposal.ts";
import { reachRoutes } from "./reach.ts";
import { searchRoutes } from "./search.ts";
import { shareRoutes } from "./shares.ts";
import { sourceRoutes } from "./sources.ts";
import { studentRoutes } from "./students.ts";
import { tableRoutes } from "./tables.ts";
import { takeFileRoutes } from "./take-files.ts";
import { takeRoutes } from "./takes.ts";
import { tokenRoutes } from "./tokens.ts";

export const routes: readonly Route[] = [
  ...healthRoutes,
  ...metricsRoutes,
  ...backupRoutes,
  ...analyseRoutes,
  ...listenRoutes,
  ...takeRoutes,
  ...classRoutes,
  ...deletedRoutes,
  ...takeFileRoutes,
  ...sourceRoutes,
  ...placementRoutes,
  ...libraryRoutes,
  ...lensMeasureRoutes,
  ...formRoutes,
  ...proposalRoutes,
  ...compareRoutes,
  ...practiceRoutes,
  ...pageRoutes,
  ...playerRoutes,
  ...playerPageRoutes,
  ...lessonRoutes,
  ...studentRoutes,
  ...shareRoutes,
  ...reachRoutes,
  ...feedbackRoutes,
  ...searchRoutes,
  ...corpusRoutes,
  ...corpusResultRoutes,
  ...tableRoutes,
  ...jobRoutes,
  ...tokenRoutes,
  ...auditRoutes(() => routes),
];
