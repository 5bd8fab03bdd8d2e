/** Where everything sounds: one clock and one piano for the page, made when they are first asked for. */
import { createPiano, type Piano } from "./piano.ts";

export interface Stage {
  readonly context: AudioContext;
  readonly piano: Piano;
}

let stage: Stage | null = null;

/** A page may not sound before it was touched, so it is waited for. */
export async function soundStage(): Promise<Stage> {
  if (stage === null) {
    const context = new AudioContext();
    stage = { context, piano: createPiano(context, context.destination) };
  }
  await stage.context.resume();
  return stage;
}
