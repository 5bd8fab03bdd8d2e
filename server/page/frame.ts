/** The script and the styles that a page in a file of its own carries; made once in the life of a process. */
import { fileURLToPath } from "node:url";

export interface PageFrame {
  readonly script: string;
  readonly styles: string;
}

const CONFIG = fileURLToPath(new URL("../../client/standalone/vite.config.ts", import.meta.url));

let frame: Promise<PageFrame> | null = null;

/** The bundler is loaded only when the first such page is asked for. */
export function pageFrame(): Promise<PageFrame> {
  frame ??= bundle().catch((error: unknown) => {
    frame = null;
    throw error;
  });
  return frame;
}

async function bundle(): Promise<PageFrame> {
  const { build } = await import("vite");
  const made = await build({ configFile: CONFIG });
  const outputs = (Array.isArray(made) ? made : [made]).flatMap((one) => ("output" in one ? one.output : []));
  let script = "";
  let styles = "";
  for (const part of outputs) {
    if (part.type === "chunk") script += part.code;
    else if (part.fileName.endsWith(".css")) styles += String(part.source);
  }
  if (script === "" || styles === "") throw new Error("the page's script or styles could not be made");
  return { script, styles };
}
