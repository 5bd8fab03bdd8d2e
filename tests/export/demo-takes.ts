/** The takes of the demo class with their accounts, for what is written from them. */
import type { Analysis } from "../../src/account.ts";
import { demoAccount, demoClass } from "../demo-class.ts";

export interface DemoTake {
  readonly id: string;
  readonly analysis: Analysis;
}

export function demoTakes(): DemoTake[] {
  return demoClass.takes.map((take) => ({ id: take.id, analysis: demoAccount(take) }));
}
