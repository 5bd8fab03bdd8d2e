/** From what the microphone recorded to a take. */

import { percent } from "../../src/words/index.ts";
import { hearFile, keepSound } from "../listen/hear-file.ts";
import { sendTake } from "../shell/api.ts";

/**
 * @param fields of the take, as `sendTake` wants them
 * @param keep keep the recording beside its notes
 * @param say told how far it is, in words
 * @param key what the take is sent under
 * @returns id of the take
 */
export async function sendSound(
  sound: File,
  fields: Readonly<Record<string, string>>,
  keep: boolean,
  say: (words: string) => void,
  key: string,
): Promise<string> {
  const heard = await hearFile(sound, {
    progress: (share) => say(`Listening to the recording: ${percent(share)}.`),
  });
  say("Being analysed …");
  const { take } = await sendTake(fields, heard, () => {}, key);
  if (keep) await keepSound(take.id, sound);
  return take.id;
}
