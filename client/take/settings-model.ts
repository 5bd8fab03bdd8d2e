/** How a take is read, as it is being set: its solo part, how it is placed on the chart, its names; and what is sent. */
import type { Usual } from "../../server/contract/player-page.ts";
import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import type { ChartRequest } from "../parts/chart-choice.ts";
import type { HandOptions } from "../parts/hand-choice.ts";
import { confirming } from "./question-model.ts";

type Method = Analysis["options"]["method"];

/** Fields as they are written; an empty one leaves the choice to the program, or the name as it is. */
export interface TakeSettings {
  readonly part: string;
  readonly staff: string;
  readonly pattern: string;
  readonly method: string;
  /** Quarter notes a minute. */
  readonly tempo: string;
  readonly title: string;
  readonly player: string;
  /** "2026-03-01" */
  readonly date: string;
  /** Whether the hand holds for the player's next takes. */
  readonly usualHand: boolean;
}

export type Choices = readonly (readonly [value: string, words: string])[];

const BY_PROGRAM = ["", "chosen by the program"] as const;

export const METHODS: readonly (readonly [Method, string])[] = [
  ["auto", "chosen by the program"],
  ["notated", "by its notation"],
  ["click", "one steady tempo, as to a click"],
  ["tracked", "a beat that drifts"],
  ["rubato", "no beat: by harmony alone"],
];

/** As the take was read last. */
export function settingsOf(
  { options }: Pick<Analysis, "options">,
  take: Pick<TakeRow, "title" | "player" | "date">,
): TakeSettings {
  return {
    part: options.soloPart ?? "",
    staff: String(options.soloStaff ?? ""),
    pattern: String(options.pattern ?? ""),
    method: options.method,
    tempo: String(options.tempo ?? ""),
    title: take.title ?? "",
    player: take.player ?? "",
    date: take.date?.slice(0, 10) ?? "",
    usualHand: false,
  };
}

export function partChoices({ source }: Pick<Analysis, "source">): Choices {
  return [
    BY_PROGRAM,
    ...source.parts.map(({ id, name, notes }) => [id, `${name || id}, ${notes} notes`] as const),
  ];
}

/** Staves counted from the top of the page; null where there is one only, and nothing to choose. */
export function staffChoices({ source, options }: Pick<Analysis, "source" | "options">): Choices | null {
  const staves = Math.max(1, options.soloStaff ?? 1, ...source.parts.map((part) => part.staves));
  if (staves === 1) return null;
  const names = Array.from({ length: staves }, (_, i) => [String(i + 1), staffName(i + 1, staves)] as const);
  return [BY_PROGRAM, ...names];
}

function staffName(staff: number, staves: number): string {
  const place = staff === 1 ? "the upper one" : staff === staves ? "the lower one" : "in the middle";
  return `${staff}, ${place}`;
}

/** Whether the file holds patterns of which one is read. */
export function hasPatterns({ options, warnings }: Pick<Analysis, "options" | "warnings">): boolean {
  return options.pattern !== null || warnings.some(({ code }) => code === "pattern-chosen");
}

/** Whether the chart was proposed and waits to be confirmed. */
export function isUnconfirmed({ chart }: Pick<Analysis, "chart">): boolean {
  return chart.source === "proposed";
}

/** What is usual for a player once a hand is. Shapes that are left to the evidence are not kept: it decides anyway. */
export function usualWithHand(
  { chart, handSize: before }: Usual,
  { handSize = before, shapes }: HandOptions,
): Usual {
  return {
    ...(chart === undefined ? {} : { chart }),
    ...(handSize === undefined ? {} : { handSize }),
    ...(shapes == null ? {} : { shapes: [...shapes] }),
  };
}

/** What is sent: the take is analysed anew by it. */
export function settingsChange(
  settings: TakeSettings,
  analysis: Analysis,
  chart: ChartRequest,
  hand: HandOptions,
): TakeChange {
  const number = (text: string) => (text.trim() === "" ? null : Number(text));
  const names = { title: settings.title.trim(), player: settings.player.trim(), date: settings.date };
  return {
    ...chart,
    options: {
      soloPart: settings.part || null,
      soloStaff: number(settings.staff),
      pattern: number(settings.pattern),
      ...hand,
      method: settings.method as Method,
      tempo: number(settings.tempo),
      ...confirming(analysis, chart),
    },
    ...Object.fromEntries(Object.entries(names).filter(([, name]) => name !== "")),
  };
}
