/** A line of even notes as a MIDI file, without a comping hand. */
import tonejsMidi from "@tonejs/midi";

/**
 * @param steps MIDI numbers, several where keys are struck together
 * @param beats length of each note in quarter notes, at 120 a minute
 */
export function midiOf(steps: readonly (number | readonly number[])[], beats: number): Uint8Array {
  const midi = new tonejsMidi.Midi();
  midi.header.setTempo(120);
  midi.header.timeSignatures.push({ ticks: 0, timeSignature: [4, 4] });
  const track = midi.addTrack();
  steps.forEach((step, i) => {
    for (const pitch of typeof step === "number" ? [step] : step) {
      track.addNote({
        midi: pitch,
        ticks: Math.round(i * beats * midi.header.ppq),
        durationTicks: Math.round(beats * midi.header.ppq * 0.9),
        velocity: 0.6,
      });
    }
  });
  return midi.toArray();
}
