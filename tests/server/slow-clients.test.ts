/**
 * Clients that send a byte now and then, stop in the middle, close one half or read nothing: others are answered
 * meanwhile, and each of them is ended by the server itself.
 */
import { connect, type Socket } from "node:net";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { serve } from "./harness.ts";

/** Long enough that a busy machine has read what came. */
const PATIENCE = { heading: 5000, request: 6000, taking: 2000 };
const BYTE_EVERY_MS = 100;

let server: RunningServer;
beforeAll(async () => {
  server = await serve({ patience: PATIENCE });
});
afterAll(() => server.close());

interface Client {
  readonly socket: Socket;
  /** What it was answered when the connection ends. */
  readonly ended: Promise<string>;
}

function client(begin: (socket: Socket) => void, { first = "", reads = true } = {}): Client {
  const { hostname, port } = new URL(server.url);
  // Without this the client would close its half as soon as the server closes the other.
  const socket = connect({ host: hostname, port: Number(port), allowHalfOpen: true });
  let text = "";
  if (reads) socket.on("data", (part) => (text += part.toString("latin1")));
  // A connection that the server resets is ended too.
  socket.on("error", () => {});
  socket.on("end", () => socket.end());
  const ended = new Promise<string>((done) => socket.on("close", () => done(text)));
  socket.on("connect", () => {
    if (first !== "") socket.write(first);
    begin(socket);
  });
  return { socket, ended };
}

/** Sends the text a byte at a time until the connection ends. */
function drop(text: string): (socket: Socket) => void {
  return (socket) => {
    let at = 0;
    const timer = setInterval(() => socket.writable && socket.write(text[at++] ?? "x"), BYTE_EVERY_MS);
    socket.on("close", () => clearInterval(timer));
  };
}

const HEADING = "POST /api/players HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\n";
const BODY = `${HEADING}content-length: 100000\r\n\r\n`;
const UPLOAD = BODY.replace("application/json", "multipart/form-data; boundary=b").replace(
  "players",
  "takes",
);
/** Requests sent at once by who reads no answer: of 80 MB and more. */
const UNREAD = 200;
const READ = "GET /api/openapi.json HTTP/1.1\r\nhost: localhost\r\n\r\n";

it("three hundred of them hold up nobody, and none stays", async () => {
  const many = (count: number, make: () => Client) => Array.from({ length: count }, make);
  const kinds = {
    "a byte of the heading now and then": many(80, () => client(drop(`${HEADING}x-slow: `))),
    "a byte of the body now and then": many(80, () => client(drop(" "), { first: BODY })),
    "an upload that stops": many(40, () => client((socket) => socket.write(`${UPLOAD}--b\r\n`))),
    "half closed in the heading": many(40, () => client((socket) => socket.end(HEADING))),
    "half closed in the body": many(40, () => client((socket) => socket.end(`${BODY}{"name":`))),
    "nothing at all": many(20, () => client(() => {})),
  };
  // More than the buffers of the system hold, asked for at once and not read.
  const unread = many(3, () => client(() => {}, { first: READ.repeat(UNREAD), reads: false }));
  const clients = [...Object.values(kinds).flat(), ...unread];
  await Promise.all(clients.map(({ socket }) => new Promise((go) => socket.once("connect", go))));
  const statuses: number[] = [];
  for (let i = 0; i < 20; i++) statuses.push((await fetch(`${server.url}/api/takes`)).status);
  expect(new Set(statuses)).toEqual(new Set([200]));
  for (const [kind, ones] of Object.entries(kinds)) {
    const answers = await Promise.all(ones.map(({ ended }) => ended));
    // RFC 9110, 15.5.9 and 15.5.1: a request that is not complete in time, or cannot be any more.
    for (const text of answers) expect(text, kind).toMatch(/^(HTTP\/1\.1 4(08|00) |$)/);
  }
  // Who does not read does not hear of the end: it shows in what was not sent any more.
  await new Promise((go) => setTimeout(go, 3 * PATIENCE.taking));
  for (const { socket, ended } of unread) {
    let text = "";
    socket.on("data", (part) => (text += part.toString("latin1")));
    await ended;
    expect(text.split("HTTP/1.1 200 OK").length - 1).toBeLessThan(UNREAD);
  }
  expect((await fetch(`${server.url}/api/takes`)).status).toBe(200);
});

it("who takes an answer slowly gets all of it", async () => {
  const slow = client((socket) => {
    socket.write(READ.repeat(60).replace(/\r\n\r\n$/, "\r\nconnection: close\r\n\r\n"));
    socket.on("data", () => {
      socket.pause();
      setTimeout(() => socket.resume(), 3);
    });
  });
  const text = await slow.ended;
  expect(text.split("HTTP/1.1 200 OK").length - 1).toBe(60);
  expect(text.endsWith("}")).toBe(true);
});
