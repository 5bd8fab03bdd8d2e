/**
 * How much of a file is read before it is refused, so that no upload can hold the program for more than about two
 * seconds or fill its memory. The largest solos known to be played (an hour of piano) stay ten times below them.
 */
export const LIMITS = {
  /** Bytes of a MIDI file. */
  midiBytes: 16_000_000,
  /** Bytes of a MusicXML text after unpacking. */
  xmlBytes: 12_000_000,
  /** Bytes of a compressed MusicXML file. */
  packedBytes: 32_000_000,
  /** Files inside one compressed MusicXML file. */
  packedFiles: 1_000,
  /** Notes of a MIDI file. */
  notes: 200_000,
  /** Notes and rests of a MusicXML file as written, and its notes as played out. */
  xmlNotes: 60_000,
  /** Events of a MIDI file (controllers and the like count too). */
  midiEvents: 2_000_000,
  /** Tracks of a MIDI file: what its header can count. */
  midiTracks: 65_535,
  /** Ticks of a MIDI track: days at any usual division. */
  midiTicks: 2 ** 31 - 2,
  /** Seconds from the start of a file to its last note: twelve hours. */
  seconds: 43_200,
  /** Elements inside elements of a MusicXML text; the standard needs about twelve. */
  xmlDepth: 64,
  /** Elements of a MusicXML text. */
  xmlElements: 800_000,
  /** Children of any element below the measure. */
  xmlChildren: 2_000,
  /** Attributes of one element. */
  xmlAttributes: 200,
  /** Letters of one text; longer ones are cut. */
  textLetters: 2_000,
  /** Words, chord symbols and other signs of a score after repeats are played out; texts and marks of a MIDI track. */
  signs: 100_000,
  /** Bars after repeats are played out. */
  bars: 20_000,
} as const;
