import type { Rule } from "../../rule.ts";
import { earlyAgainstTheBeat } from "./early-against-the-beat.ts";
import { formLeft } from "./form-left.ts";
import { lateAgainstTheBeat } from "./late-against-the-beat.ts";
import { noteValuesMixed } from "./note-values-mixed.ts";
import { offBeatLife } from "./off-beat-life.ts";
import { oneNoteValue } from "./one-note-value.ts";
import { swingChangesByChorus } from "./swing-changes-by-chorus.ts";
import { swingSettled } from "./swing-settled.ts";
import { swingUnsettled } from "./swing-unsettled.ts";
import { tempoDrifts } from "./tempo-drifts.ts";
import { tempoSteady } from "./tempo-steady.ts";
import { tempoUneven } from "./tempo-uneven.ts";
import { timeVariesByHand } from "./time-varies-by-hand.ts";

/** What is said of time and feel. */
export const TIME_AND_FEEL: readonly Rule[] = [
  swingSettled,
  swingUnsettled,
  swingChangesByChorus,
  formLeft,
  tempoSteady,
  tempoDrifts,
  tempoUneven,
  earlyAgainstTheBeat,
  lateAgainstTheBeat,
  offBeatLife,
  oneNoteValue,
  noteValuesMixed,
  timeVariesByHand,
];
