/** The reference as the program serves it: `/reference`, and a page for each kind of thing. */
import { type Response, Router } from "express";
import type { Route } from "../route.ts";
import { htmlOf, REFERENCE_STYLES } from "./page.ts";
import { referencePages } from "./pages.ts";

export function referenceRouter(routes: readonly Route[]): Router {
  const router = Router();
  // Made when it is first asked for: most services are started without anybody reading it.
  let pages: ReadonlyMap<string, string> | null = null;
  const send = (id: string, response: Response, next: () => void) => {
    if (pages === null) {
      const all = referencePages(routes);
      pages = new Map(all.map((page) => [page.id, htmlOf(page, all)]));
    }
    const page = pages.get(id);
    if (page === undefined) next();
    else response.type("text/html").send(page);
  };
  router.get("/reference.css", (_request, response) => {
    response.type("text/css").send(REFERENCE_STYLES);
  });
  router.get("/", (_request, response, next) => send("account", response, next));
  router.get("/:page", (request, response, next) => send(request.params.page, response, next));
  return router;
}
