/** `/shared/TOKEN`: what opening a link does. */
import type { RequestHandler } from "express";
import { actorOf, setSession } from "./access.ts";
import { HttpProblem } from "./errors.ts";
import type { Services } from "./services.ts";
import { findToken } from "./store/tokens.ts";

/** Roles that a link may have, each with the page that it opens. */
const LINKS: Readonly<Record<string, string>> = { reader: "/read/", student: "/students/" };

/**
 * A link: signs the page in with its token and goes on to the take, as it is to be read, or to a player's own page. One that has ended is
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
    const opened = row?.scope[0];
    const way = row === null ? undefined : LINKS[row.role];
    if (way === undefined || opened === undefined) {
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
    if (signedIn === null || signedIn.role in LINKS) setSession(request, response, token);
    response.redirect(303, `/#${way}${encodeURIComponent(opened)}`);
  };
}
