import { isHeard } from "../../src/listen/index.ts";

/** Name of a stored source: what was heard in "solo.mp3" is "solo.mp3.heard.json". */
export function sourceName(fileName: string, bytes: Uint8Array): string {
  return isHeard(bytes) && !fileName.endsWith(".json") ? `${fileName}.heard.json` : fileName;
}
