/** `/tokens`: make, list and end tokens. `/session`: a page signs in with a token and keeps it in a cookie. */
import { SESSION_COOKIE, setSession } from "../access.ts";
import {
  endedHow,
  madeTokenSchema,
  newToken,
  signIn,
  tokenChange,
  tokenSchema,
  tokensSchema,
} from "../contract/access.ts";
import { idParams } from "../contract/fields.ts";
import { HttpProblem, notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import { changeToken, createToken, endToken, findToken, forgetToken, listTokens } from "../store/tokens.ts";

export const tokenRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/tokens",
    access: "owner",
    summary: "All tokens, without what they open with",
    answers: { 200: { description: "tokens", schema: tokensSchema } },
    example: {},
    handle: async ({ services }) => ({ status: 200, json: { tokens: await listTokens(services.database) } }),
  }),
  route({
    method: "post",
    path: "/tokens",
    access: "owner",
    summary: "Make a token; it is told this once",
    body: newToken,
    answers: { 201: { description: "the token", schema: madeTokenSchema } },
    example: { body: { name: "Example teacher", role: "teacher", scope: [] } },
    handle: async ({ body, services }) => ({ status: 201, json: await createToken(services.database, body) }),
  }),
  route({
    method: "patch",
    path: "/tokens/:id",
    access: "owner",
    summary: "Change what a token reaches or may keep, from the next request on",
    params: idParams,
    body: tokenChange,
    answers: { 200: { description: "the token, without what it opens with", schema: tokenSchema } },
    handle: async ({ params, body, services }) => {
      const token = await changeToken(services.database, params.id, body);
      if (token === null) throw notFound("token", params.id);
      return { status: 200, json: token };
    },
  }),
  route({
    method: "delete",
    path: "/tokens/:id",
    access: "owner",
    summary: "End a token, and forget it where that is asked for",
    params: idParams,
    query: endedHow,
    answers: { 204: { description: "ended" } },
    handle: async ({ params, query, services: { database } }) => {
      const end = query.forget === "true" ? forgetToken : endToken;
      if (!(await end(database, params.id))) throw notFound("token", params.id);
      return { status: 204 };
    },
  }),
  route({
    method: "post",
    path: "/session",
    keeps: false,
    access: "open",
    summary: "Sign a page in with a token",
    body: signIn,
    answers: { 204: { description: "signed in" } },
    handle: async ({ body, services }) => {
      if ((await findToken(services.database, body.token)) === null) {
        throw new HttpProblem(
          401,
          "token-unknown",
          "This token is not in force",
          "token",
          "Check it, or ask for a new one.",
        );
      }
      return {
        stream: async (request, response) => {
          setSession(request, response, body.token);
          response.status(204).end();
        },
      };
    },
  }),
  route({
    method: "delete",
    path: "/session",
    access: "open",
    summary: "Sign out",
    answers: { 204: { description: "signed out" } },
    handle: async () => ({
      stream: async (_request, response) => {
        response.clearCookie(SESSION_COOKIE, { path: "/" });
        response.status(204).end();
      },
    }),
  }),
];
