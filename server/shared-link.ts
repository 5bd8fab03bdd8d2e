/** `/shared/TOKEN`: what opening a link does. */
import type { RequestHandler } from "express";
import { actorOf, setSession } from "./access.ts";
import { HttpProblem } from "./errors.ts";
import type { Services } from "./services.ts";
import { findToken } from "./store/tokens.ts";

/**
 * A read-only link: signs the page in with its token and goes on to the take, as it is to be read. One that has ended is
 * told to a browser by a page, to programs as an error.
 *
 * Who is signed in already stays who they are, and sees the take if it is within their reach.
 *
 * @param page file of the pages' start
 */
export function openShare(
  services: Pick<Services, "database" | "needsToken" | "folderKey">,
  page: string,
): RequestHandler {
  return async (request, response) => {
    const token = String(request.params.token ?? "");
    const row = await findToken(services.database, token);
    const take = row?.scope[0];
    if (row?.role !== "reader" || take === undefined) {
      if (request.accepts(["json", "html"]) === "html") {
        response.status(404).sendFile(page);
        return;
      }
      throw new HttpProblem(
        404,
        "link-ended",
        "This link is not in force any more",
        null,
        "Ask for a new one.",
      );
    }
    const signedIn = await actorOf(request, services);
    if (signedIn === null || signedIn.role === "reader") setSession(request, response, token);
    response.redirect(303, `/#/read/${encodeURIComponent(take)}`);
  };
}
