import { Problem, type Take } from "../take/index.ts";
import { kindOfFile } from "./file-kind.ts";
import { readHeardNotes } from "./heard/read-heard-notes.ts";
import { readMidi } from "./midi/read-midi.ts";
import { readMusicXml } from "./musicxml/read-musicxml.ts";

/**
 * Reads one recorded or notated solo. The kind of file is told by its bytes, not by its name.
 *
 * @param bytes The file: a Standard MIDI File, a MusicXML text, a compressed MusicXML file or a document of
 *   notes that were heard in a recording.
 * @param options.name Name of the file, for messages only.
 * @param options.pattern Pattern of a format 2 MIDI file, from 1; null for the first with notes.
 * @throws Problem for every file that cannot be read, and nothing else.
 */
export function readTake(bytes: Uint8Array, options: { name: string; pattern?: number | null }): Take {
  try {
    switch (kindOfFile(bytes, options.name)) {
      case "midi":
        return readMidi(bytes, options.pattern ?? null);
      case "musicxml":
        return readMusicXml(bytes, false);
      case "heard":
        return readHeardNotes(bytes);
      case "packed":
        return readMusicXml(bytes, true);
    }
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw new Problem(
      "unreadable-file",
      `${options.name} cannot be read: ${error instanceof Error ? error.message : error}`,
      null,
      "Export the file again, or send it to the maintainers.",
    );
  }
}
