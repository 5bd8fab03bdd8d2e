/** Which chart a take was played on, as it is being chosen: a form of the trade in a key, a text, or what is heard of it. */
import type { FormRow } from "../../server/contract/charts.ts";
import { classOf, usualTonics } from "../../src/pitch/index.ts";
import { withAccidentals } from "../../src/words/index.ts";

/** "own": read from the take itself. */
export type ChartWay = "form" | "text" | "own";

export interface ChartChoice {
  readonly way: ChartWay;
  /** Identifier of a form. */
  readonly form: string;
  /** Without the mode, which is the form's: "F", "Bb". */
  readonly tonic: string;
  readonly text: string;
  /** The one file whose chart may be heard; null when there is none, or several. */
  readonly file: File | null;
  /** Somebody has chosen or typed here. */
  readonly touched: boolean;
}

/** Fields of a request: `form` and `key`, or `chart`, or none. */
export type ChartRequest = { form?: string; key?: string; chart?: string };

/** The commonest key of the blues forms that stand first. [practice] */
const FIRST_TONIC = "F";

/** @param start what is chosen beforehand; a text goes before a form */
export function firstChoice(
  forms: readonly FormRow[],
  start: { readonly text?: string; readonly form?: string; readonly key?: string },
): ChartChoice {
  return {
    way: start.text ? "text" : "form",
    form: forms.find(({ id }) => id === start.form)?.id ?? forms[0]?.id ?? "",
    tonic: /^([A-G][b#]?)m?$/.exec(start.key ?? "")?.[1] ?? FIRST_TONIC,
    text: start.text ?? "",
    file: null,
    touched: false,
  };
}

/** @param heard the chart that was heard of the take, which can be gone on with as text; null when none was */
export function chooseWay(choice: ChartChoice, way: ChartWay, heard: string | null): ChartChoice {
  const goOn = way === "text" && choice.text.trim() === "";
  return { ...choice, way, text: goOn ? (heard ?? "") : choice.text };
}

/** The tonic that was chosen stays. */
export function chooseForm(choice: ChartChoice, form: string): ChartChoice {
  return { ...choice, form };
}

export function chooseKey(choice: ChartChoice, key: string): ChartChoice {
  return { ...choice, tonic: key.replace(/m$/, "") };
}

export function typeChart(choice: ChartChoice, text: string): ChartChoice {
  return { ...choice, text };
}

export function touch(choice: ChartChoice): ChartChoice {
  return choice.touched ? choice : { ...choice, touched: true };
}

export function hearFrom(choice: ChartChoice, file: File | null): ChartChoice {
  return { ...choice, file };
}

/** Puts a text in, unless somebody has chosen or typed already. */
export function offerText(choice: ChartChoice, text: string): ChartChoice {
  return choice.touched ? choice : { ...choice, way: "text", text };
}

/** The usual keys of the chosen form, in its mode: "F", "Fm". */
export function keysOf(choice: ChartChoice, forms: readonly FormRow[]): string[] {
  const minor = isMinor(choice, forms);
  return usualTonics(minor ? "minor" : "major").map((tonic) => (minor ? `${tonic}m` : tonic));
}

/** The chosen key in the form's mode, by the name that is usual there: D flat major becomes C sharp minor. */
export function keyOf(choice: ChartChoice, forms: readonly FormRow[]): string {
  const keys = keysOf(choice, forms);
  const tonicOf = (key: string) => key.replace(/m$/, "");
  return (
    keys.find((key) => tonicOf(key) === choice.tonic) ??
    keys.find((key) => classOf(tonicOf(key)) === classOf(choice.tonic)) ??
    keys[0]!
  );
}

/** "F minor", "B♭ major" */
export function keyWords(key: string): string {
  return `${withAccidentals(key.replace(/m$/, ""))} ${key.endsWith("m") ? "minor" : "major"}`;
}

/** @param heard the chart that was heard of the take; null when none was */
export function chartRequest(
  choice: ChartChoice,
  forms: readonly FormRow[],
  heard: string | null,
): ChartRequest {
  switch (choice.way) {
    case "form":
      return { form: choice.form, key: keyOf(choice, forms) };
    case "text":
      return { chart: choice.text };
    case "own":
      return heard === null ? {} : { chart: heard };
  }
}

function isMinor({ form }: ChartChoice, forms: readonly FormRow[]): boolean {
  return forms.find(({ id }) => id === form)?.mode === "minor";
}
