/** The readings of the chorus page, in the order of their buttons. */
import type { ReadingName } from "../../shell/selection.ts";
import { hand } from "./hand.ts";
import { ideas } from "./ideas.ts";
import { line } from "./line.ts";
import type { Reading } from "./reading.ts";
import { registerReading } from "./register.ts";
import { role } from "./role.ts";
import { time } from "./time.ts";

export const READINGS_SHOWN: Readonly<Record<ReadingName, Reading>> = {
  role,
  line,
  hand,
  ideas,
  time,
  register: registerReading,
};
