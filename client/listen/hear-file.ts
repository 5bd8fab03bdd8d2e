/** A recording becomes the document of the notes that are heard in it; that is what is sent on, and kept. */
import type { ListeningLine } from "../../server/contract/listening.ts";
import { ApiError } from "../shell/api.ts";
import { readyToSend } from "./decode-here.ts";

export interface Hearing {
  /** Told the share that is done, 0 to 1. */
  readonly progress: (share: number) => void;
  readonly signal?: AbortSignal;
}

/** Names of recordings of sound; what a file really is the server tells by its bytes. */
const SOUNDS = ["wav wave mp3 flac ogg oga opus m4a aac aif aiff caf amr webm mp4 mov mkv 3gp"].flatMap(
  (names) => names.split(" "),
);

export const SOUND_KINDS = SOUNDS.map((ending) => `.${ending}`).join(",");

export function isSound(file: File): boolean {
  return SOUNDS.includes(file.name.split(".").at(-1)!.toLowerCase());
}

/** @throws ApiError in words when no piano can be heard; the signal's reason when it was ended */
export async function hearFile(file: File, { progress, signal }: Hearing): Promise<File> {
  const body = new FormData();
  body.append("file", await readyToSend(file), file.name);
  const answer = await fetch("/api/listen", { method: "POST", body, signal: signal ?? null });
  if (!answer.ok || answer.body === null) {
    throw new ApiError(await answer.json().catch(() => ({})), answer.status);
  }
  for await (const line of linesOf(answer.body)) {
    const said = JSON.parse(line) as ListeningLine;
    if ("progress" in said) progress(said.progress);
    if ("problem" in said) throw new ApiError({ ...said.problem, detail: said.problem.message }, 422);
    if ("heard" in said) {
      return new File([JSON.stringify(said.heard)], file.name, { type: "application/json" });
    }
  }
  throw new ApiError({ detail: "Listening broke off.", todo: "Try again." }, 0);
}

/** Keeps the recording itself beside the take. */
export async function keepSound(take: string, file: File): Promise<void> {
  const body = new FormData();
  body.append("file", await readyToSend(file), file.name);
  const answer = await fetch(`/api/takes/${take}/sound`, { method: "PUT", body });
  if (!answer.ok) throw new ApiError(await answer.json().catch(() => ({})), answer.status);
}

async function* linesOf(stream: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  const reader = stream.getReader();
  let rest = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    rest += decoder.decode(value, { stream: true });
    const lines = rest.split("\n");
    rest = lines.pop()!;
    yield* lines;
  }
  if (rest !== "") yield rest;
}
