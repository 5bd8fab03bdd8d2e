/** Which function defines a role or a device: its comment says what the name means. */
import { DEVICE_NAMES } from "../../src/devices/names.ts";
import { LINE_ROLES } from "../../src/harmony/roles.ts";

/** "chain of approaches" is defined by `chainOfApproaches`; "escape" by `escapeTone`, after its whole name. */
export function functionOf(name: string): string {
  return name === "escape"
    ? "escapeTone"
    : name.replace(/[ -](\w)/g, (_, letter: string) => letter.toUpperCase());
}

export const DEFINING_FUNCTIONS: ReadonlySet<string> = new Set([
  "harmonicRoleOf",
  ...[...LINE_ROLES, ...DEVICE_NAMES].map(functionOf),
]);
