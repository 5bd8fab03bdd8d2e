/** Sends an account as it is kept: packed to whoever takes it so, else opened, and one at a time. */
import type { Request, Response } from "express";
import type { KeptAccount } from "./store/accounts.ts";

/**
 * An account is packed once, when it is made, from what one sender gave; nothing of a request is packed with it, so the
 * length of an answer tells a listener on the line nothing of a secret.
 */
export async function sendAccount(account: KeptAccount, request: Request, response: Response): Promise<void> {
  const packed = request.acceptsEncodings("gzip", "identity") === "gzip";
  response.vary("Accept-Encoding");
  // The two are different bytes, and a tag names bytes (RFC 9110, 8.8.3.3).
  const tag = account.key === null ? null : `"${account.key}${packed ? "-gzip" : ""}"`;
  if (tag !== null) response.setHeader("ETag", tag);
  if (tag !== null && isKnown(tag, request)) {
    response.status(304).end();
    return;
  }
  const bytes = packed ? account.packed : await account.open();
  if (packed) response.setHeader("Content-Encoding", "gzip");
  await sendWritten(bytes, response);
}

/**
 * Whether the request names the tag among those that its sender has. That no cache may answer it, which `fetch` adds,
 * is a word to caches (RFC 9111, 5.2.1.4): here it is answered from what is so now.
 */
function isKnown(tag: string, request: Request): boolean {
  const known = (request.headers["if-none-match"] ?? "").split(",").map((one) => one.trim());
  return known.some((one) => one === tag || one === `W/${tag}`);
}

/** Sends JSON that is written already. */
export async function sendWritten(bytes: Uint8Array, response: Response): Promise<void> {
  await nextTurn();
  response.type("application/json").setHeader("Content-Length", bytes.length);
  response.end(bytes);
}

let turn: Promise<void> = Promise.resolve();

/**
 * One long answer in a turn of the event loop: to hand one to the system takes as long as a dozen short ones, and what
 * came meanwhile is answered between two of them.
 */
function nextTurn(): Promise<void> {
  turn = turn.then(() => new Promise((done) => setImmediate(done)));
  return turn;
}
