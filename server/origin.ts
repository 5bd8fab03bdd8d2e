/** Which machines and pages a request may come from, before it is asked who sends it. */
import type { RequestHandler } from "express";
import { HttpProblem } from "./errors.ts";

const LOOPBACK = new Set(["127.0.0.1", "localhost", "[::1]"]);

export function isLoopback(host: string): boolean {
  return LOOPBACK.has(host) || host === "::1";
}

/** Refuses requests under foreign host names and state changes that a page of another origin asks for. */
export const guardOrigin: RequestHandler = (request, _response, next) => {
  const host = hostName(request.headers.host ?? "");
  if (isLoopback(request.socket.localAddress?.replace(/^::ffff:/, "") ?? "") && !isLoopback(host)) {
    throw new HttpProblem(
      421,
      "foreign-host",
      `This service does not answer under the name "${host}"`,
      "host",
      "Open it as http://127.0.0.1 with its port.",
    );
  }
  const origin = request.headers.origin;
  const reads = request.method === "GET" || request.method === "HEAD";
  if (!reads && origin !== undefined && originHost(origin) !== request.headers.host) {
    throw new HttpProblem(
      403,
      "foreign-origin",
      "A page of another origin may not change anything here",
      "origin",
      "Use the page that this service shows itself.",
    );
  }
  next();
};

function hostName(host: string): string {
  return host.replace(/:\d+$/, "").toLowerCase();
}

function originHost(origin: string): string | null {
  try {
    return new URL(origin).host;
  } catch {
    return null;
  }
}
