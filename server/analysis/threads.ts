/** Threads that read TypeScript, whichever program started the server. */
import { Piscina } from "piscina";

export interface ThreadOptions {
  readonly least: number;
  readonly most: number;
  readonly idleMs: number;
}

export function openThreads({ least, most, idleMs }: ThreadOptions): Piscina {
  return new Piscina({
    execArgv: ["--import", import.meta.resolve("tsx")],
    minThreads: least,
    maxThreads: most,
    idleTimeout: idleMs,
    resourceLimits: { maxOldGenerationSizeMb: 1024 },
  });
}
