/** The solo alone as a MIDI file, in performed time. */
import tonejsMidi from "@tonejs/midi";
import type { Analysis } from "../account.ts";

/** A one-track MIDI file (format 1) of the solo notes; the tempo is the median one, so that bar lines come near. */
export function soloMidi(analysis: Analysis): Uint8Array {
  const midi = new tonejsMidi.Midi();
  midi.header.setTempo(analysis.alignment.tempo?.median ?? 120);
  midi.header.timeSignatures.push({
    ticks: 0,
    timeSignature: [analysis.chart.meter.beats, analysis.chart.meter.unit],
  });
  const track = midi.addTrack();
  track.name = "Solo";
  for (const note of analysis.notes) {
    if (!note.solo) continue;
    track.addNote({
      midi: note.pitch,
      time: Math.max(0, note.onset),
      duration: note.duration,
      velocity: note.velocity / 127,
    });
  }
  return midi.toArray();
}
