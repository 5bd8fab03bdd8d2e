export { COMPANY_WIDTH } from "./company.ts";
export {
  type Company,
  type Doubt,
  type Heard,
  type HeardNote,
  heardSchema,
  isHeard,
  readHeard,
  writeHeard,
} from "./heard.ts";
export { KEYS } from "./keys-heard.ts";
export { listen, type Network } from "./listen.ts";
export { SOUND_LIMITS } from "./refusals.ts";
export { createResampler, mono, type Resampler, to16k } from "./resample.ts";
export { putSamples, type Sound, WHOLE } from "./samples.ts";
export { soundEnding, soundKind } from "./sound-kind.ts";
export { createSpectrum, FRAMES_A_SECOND, SOUND } from "./spectrum.ts";
