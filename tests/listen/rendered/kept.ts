/** What was heard in a sound, kept in `dist/heard` for the same sound and the same listening: hearing takes minutes. */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Heard, listen, type Network, readHeard, writeHeard } from "../../../src/listen/index.ts";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
const KEPT = join(ROOT, "dist/heard");
const LISTENING = ["src/listen", "src/listen/network"].map((folder) => join(ROOT, folder));

export interface KeptHearing {
  readonly heard: Heard;
  /** Seconds of processor for a second of sound, when it was heard. */
  readonly effort: number;
}

export async function hearOnce(sound: Float32Array, network: Network): Promise<KeptHearing> {
  const hash = createHash("sha256");
  for (const folder of LISTENING)
    for (const { name } of readdirSync(folder, { withFileTypes: true }).filter((file) => file.isFile()))
      hash.update(name).update(readFileSync(join(folder, name)));
  hash.update(new Uint8Array(sound.buffer, sound.byteOffset, sound.byteLength));
  const file = join(KEPT, `${hash.digest("hex").slice(0, 16)}.json`);
  if (existsSync(file)) {
    const { document, effort } = JSON.parse(readFileSync(file, "utf8"));
    return { heard: readHeard(new TextEncoder().encode(document)), effort };
  }
  const before = process.cpuUsage();
  const heard = await listen(sound, network);
  const { user, system } = process.cpuUsage(before);
  const effort = (user + system) / 1e6 / heard.seconds;
  mkdirSync(KEPT, { recursive: true });
  writeFileSync(file, JSON.stringify({ effort, document: new TextDecoder().decode(writeHeard(heard)) }));
  return { heard, effort };
}
