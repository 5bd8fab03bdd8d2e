/** `POST /listen`: what is heard in a recording, as a document to be analysed or kept in place of it; nothing is stored. */
import { once } from "node:events";
import type { Request, Response } from "express";
import { readHeard } from "../../src/listen/index.ts";
import { Problem } from "../../src/take/index.ts";
import { type ListeningLine, listeningLine } from "../contract/listening.ts";
import { brokenOff } from "../listen/hearer.ts";
import { type Route, route, type UploadedFile } from "../route.ts";
import { serialiseProblem } from "../serialise-problem.ts";
import type { Services } from "../services.ts";
import { oneSound } from "./fields.ts";

export const listenRoutes: readonly Route[] = [
  route({
    method: "post",
    path: "/listen",
    keeps: false,
    access: "working",
    summary:
      "Hear the notes of a piano in a recording: a line of JSON for each step ({progress}), and at last {heard} or {problem}; closing the connection ends it",
    accepts: "form",
    answers: { 200: { description: "lines", type: "application/x-ndjson", line: listeningLine } },
    handle: async ({ files, services }) => {
      const file = oneSound(
        files,
        "Send WAV, MP3, FLAC, Ogg, Opus or M4A; MIDI and MusicXML need no listening.",
      );
      return { stream: (request, response) => hear(services, file, request, response) };
    },
  }),
];

async function hear(
  { listener, log }: Services,
  file: UploadedFile,
  _request: Request,
  response: Response,
): Promise<void> {
  response.writeHead(200, {
    "content-type": "application/x-ndjson",
    "cache-control": "no-store",
    "x-accel-buffering": "no",
  });
  const gone = new AbortController();
  response.on("close", () => gone.abort());
  const say = (line: ListeningLine) => response.write(`${JSON.stringify(line)}\n`);
  try {
    const document = await listener.sourceOf(file.bytes, file.name, {
      progress: (progress) => say({ progress }),
      signal: gone.signal,
      given: true,
    });
    say({ heard: readHeard(document) });
  } catch (error) {
    if (gone.signal.aborted) return;
    if (!(error instanceof Problem)) log.error({ err: error }, "listening broke off");
    say({ problem: serialiseProblem(error instanceof Problem ? error : brokenOff()) });
  }
  response.end();
  await once(response, "close");
}
