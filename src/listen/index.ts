export { decodeNotes, type Heardness, KEYS, LOWEST_KEY } from "./decode-notes.ts";
export { type Doubt, type Heard, type HeardNote, readHeard, writeHeard } from "./heard.ts";
export { listen, type Network } from "./listen.ts";
export { createMel, FRAMES_A_SECOND, SOUND } from "./mel.ts";
export { SOUND_LIMITS, SURE } from "./refusals.ts";
export { mono, to16k } from "./resample.ts";
