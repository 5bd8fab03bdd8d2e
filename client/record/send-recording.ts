/** From a recording that the browser keeps to a take on the server. */
import { chordSpans } from "../../src/chart/chord-spans.ts";
import type { Chart } from "../../src/chart/types.ts";
import { sendTake } from "../shell/api.ts";
import { clickPlaces } from "./click-places.ts";
import { changeAnchors } from "./free-time.ts";
import type { KeptRecording } from "./kept-recordings.ts";
import type { RecordingSettings } from "./record-states.ts";

/** Loads what ends and sends a recording while the network is there: it may be gone when the playing ends. */
export const readyToSend = (): Promise<unknown> =>
  Promise.all([import("../../src/chart/index.ts"), import("./recording.ts")]);

/** The chart that was chosen; throws with words and a place when its text cannot be read. */
export async function chartOf(fields: RecordingSettings["chart"]): Promise<Chart> {
  const { formChart, parseChart } = await import("../../src/chart/index.ts");
  return fields.chart !== undefined
    ? parseChart(fields.chart)
    : formChart(fields.form ?? "", fields.key ?? "C");
}

/** What was played, as a Standard MIDI File whose bars are the click's. */
export async function midiOf({ settings, ...recorded }: KeptRecording): Promise<File> {
  const { recordingFile } = await import("./recording.ts");
  const bytes = recordingFile(recorded, settings.quartersPerMinute, settings.meter);
  return new File([bytes.slice()], "recording.mid", { type: "audio/midi" });
}

/**
 * Sends with what was set at the start, under the recording's own id: when only the answer was lost, the take that is
 * there is given.
 *
 * @param sound what the microphone heard, used when no key was pressed
 * @param say told how far it is, in words
 * @returns id of the take
 */
export async function sendRecording(
  kept: KeptRecording,
  sound: File | null,
  say: (words: string) => void,
): Promise<string> {
  const { settings, notes } = kept;
  const known =
    settings.time === "free"
      ? { ...settings.hand, method: "rubato" }
      : { ...settings.hand, tempo: settings.quartersPerMinute };
  const fields = (options: object) => ({
    ...settings.chart,
    player: settings.player,
    title: settings.title || "Recorded here",
    date: kept.date,
    options: JSON.stringify(options),
  });
  // What a keyboard sent is surer than what a microphone heard.
  if (notes.length === 0) {
    if (sound === null) throw new Error("This recording holds no note, so there is nothing to send.");
    const { sendSound } = await import("./send-sound.ts");
    // When the microphone began is not known to the click, so the bars are found by what is heard.
    return sendSound(sound, fields(known), settings.keepSound, say, kept.id);
  }
  const { take } = await sendTake(
    fields({ ...known, ...placed(kept, await chartOf(settings.chart)) }),
    await midiOf(kept),
    () => {},
    kept.id,
  );
  return take.id;
}

/** Where the form lies by the click, or by the player's changes in free time; nothing when the chart was given another meter since, which the click did not count. */
function placed({ settings, notes, changes = [] }: KeptRecording, chart: Chart): object {
  if (settings.time === "free")
    return { method: "rubato", anchors: changeAnchors(changes, chordSpans(chart)) };
  const { meter, quartersPerMinute, countInBars } = settings;
  if (chart.meter.beats !== meter.beats || chart.meter.unit !== meter.unit) return {};
  const barSeconds = ((meter.beats * 4) / meter.unit) * (60 / quartersPerMinute);
  const last = notes.at(-1)!.onset;
  return { method: "click", anchors: clickPlaces(barSeconds, countInBars, chart.bars.length, last) };
}
