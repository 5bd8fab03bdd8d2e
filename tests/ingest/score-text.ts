/** Builds small MusicXML documents for tests, without any code of the program. */

const STEPS: Readonly<Record<string, string>> = { b: "<alter>-1</alter>", "#": "<alter>1</alter>", "": "" };

/** "Eb4" and a length in divisions, with more elements behind the duration and behind the voice. */
export function note(pitch: string, duration: number, after = "", voice = 1, behind = ""): string {
  return `<note>${pitchElement(pitch)}<duration>${duration}</duration>${after}<voice>${voice}</voice>${behind}</note>`;
}

export function pitchElement(pitch: string): string {
  const [, step, sign, octave] = /^([A-G])([b#]?)(-?\d)$/.exec(pitch)!;
  return `<pitch><step>${step}</step>${STEPS[sign!]}<octave>${octave}</octave></pitch>`;
}

export function rest(duration: number, voice = 1): string {
  return `<note><rest/><duration>${duration}</duration><voice>${voice}</voice></note>`;
}

export function attributes(divisions: number, beats = 4, unit = 4, more = ""): string {
  return `<attributes><divisions>${divisions}</divisions><time><beats>${beats}</beats><beat-type>${unit}</beat-type></time>${more}</attributes>`;
}

export function bar(number: number | string, content: string, more = ""): string {
  return `<measure number="${number}"${more}>${content}</measure>`;
}

/** A score of one part. */
export function score(...bars: readonly string[]): Uint8Array {
  return document(
    `<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${bars.join("")}</part>`,
  );
}

export function document(
  content: string,
  declaration = '<?xml version="1.0" encoding="UTF-8"?>',
): Uint8Array {
  return new TextEncoder().encode(`${declaration}<score-partwise version="4.0">${content}</score-partwise>`);
}

export const REPEAT_START = '<barline location="left"><repeat direction="forward"/></barline>';
export const REPEAT_END = '<barline location="right"><repeat direction="backward"/></barline>';

export function endingStart(number: string): string {
  return `<barline location="left"><ending number="${number}" type="start"/></barline>`;
}

export function endingStop(number: string, repeat: boolean): string {
  return `<barline location="right"><ending number="${number}" type="${repeat ? "stop" : "discontinue"}"/>${repeat ? '<repeat direction="backward"/>' : ""}</barline>`;
}

export function sound(attributesText: string): string {
  return `<direction><direction-type><words/></direction-type><sound ${attributesText}/></direction>`;
}

export function words(text: string): string {
  return `<direction><direction-type><words>${text}</words></direction-type></direction>`;
}
