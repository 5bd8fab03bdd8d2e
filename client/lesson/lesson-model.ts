/** Preparing a lesson: what is chosen, who is to get it, and what is on its way. No page is needed for it. */
import type { NewLesson } from "../../server/contract/lessons.ts";
import { LENSES } from "../../src/lens/built-in.ts";
import { LEVEL_IDS, type Level } from "../../src/practice/levels.ts";
import type { PreparedLesson } from "../../src/practice/prepared-lesson.ts";
import { listInWords } from "../../src/words/index.ts";

export interface LessonChoice {
  readonly level: Level["id"];
  readonly feel: "swing" | "even";
  /** Id of a lens; "" for none. */
  readonly lens: string;
  readonly shapes: readonly string[];
}

export interface Named {
  readonly id: string;
  readonly name: string;
}

export interface LessonState {
  readonly choice: LessonChoice;
  readonly lenses: readonly Named[];
  readonly shapeNames: readonly string[];
  readonly players: readonly Named[];
  /** Ids of the players who get it. */
  readonly chosen: readonly string[];
  /** ISO date. */
  readonly handedOn: string;
  readonly sheet: PreparedLesson | null;
  readonly busy: "reading" | "handing out" | null;
  readonly refused: unknown;
  /** Who has got it: said until something else is chosen. */
  readonly handed: readonly Named[];
}

/** Who was to get a lesson, and on which day, when the page was left. */
export interface HandOutDraft {
  readonly chosen: readonly string[];
  /** ISO date; null for the day on which the page is opened. */
  readonly handedOn: string | null;
}

/** @param left taken where the address names no player */
export function opened(
  start: Pick<LessonState, "shapeNames" | "players" | "handedOn"> & { readonly ownLenses: readonly Named[] },
  query: URLSearchParams,
  left: HandOutDraft | null = null,
): LessonState {
  const { ownLenses, ...rest } = start;
  const lenses = [...LENSES.map(({ id, name }) => ({ id, name })), ...ownLenses];
  const one = <Value extends string>(values: readonly Value[], name: string, usual: Value): Value =>
    values.find((value) => value === query.get(name)) ?? usual;
  const asked = query.getAll("shape").filter((name) => rest.shapeNames.includes(name));
  const player = query.get("player");
  const wanted = player === null ? (left?.chosen ?? []) : [player];
  return {
    ...rest,
    handedOn: left?.handedOn ?? rest.handedOn,
    choice: {
      level: one(LEVEL_IDS, "level", "intermediate"),
      feel: one(["swing", "even"], "feel", "swing"),
      lens: one(
        lenses.map(({ id }) => id),
        "lens",
        "",
      ),
      shapes: asked.length > 0 ? asked : rest.shapeNames.slice(0, 1),
    },
    lenses,
    chosen: rest.players.map(({ id }) => id).filter((id) => wanted.includes(id)),
    ...{ sheet: null, busy: null, refused: null, handed: [] },
  };
}

export function chosen(state: LessonState, part: Partial<LessonChoice>): LessonState {
  return { ...state, choice: { ...state.choice, ...part }, handed: [] };
}

export function shapeTaken(state: LessonState, name: string, taken: boolean): LessonState {
  const others = state.choice.shapes.filter((one) => one !== name);
  return chosen(state, { shapes: taken ? [...others, name] : others });
}

export function playerTaken(state: LessonState, id: string, taken: boolean): LessonState {
  const others = state.chosen.filter((one) => one !== id);
  return { ...state, chosen: taken ? [...others, id] : others, handed: [] };
}

/** All players, or none where all were chosen already. */
export function allTaken(state: LessonState): LessonState {
  const every = state.chosen.length === state.players.length;
  return { ...state, chosen: every ? [] : state.players.map(({ id }) => id), handed: [] };
}

/** What is to outlive the page; null where nothing is chosen. */
export function unhanded({ chosen: players, handedOn }: LessonState, today: string): HandOutDraft | null {
  if (players.length === 0 && handedOn === today) return null;
  return { chosen: players, handedOn: handedOn === today ? null : handedOn };
}

export const reading = (state: LessonState): LessonState => ({ ...state, busy: "reading", refused: null });

export const read = (state: LessonState, sheet: PreparedLesson): LessonState => ({
  ...state,
  ...{ sheet, busy: null, refused: null },
});

export const handingOut = (state: LessonState): LessonState => ({
  ...state,
  ...{ busy: "handing out", refused: null },
});

/** What was chosen stays, to be mended and asked for again. */
export const refused = (state: LessonState, error: unknown): LessonState => ({
  ...state,
  ...{ busy: null, refused: error },
});

export const handedOut = (state: LessonState): LessonState => ({
  ...state,
  handed: state.players.filter(({ id }) => state.chosen.includes(id)),
  ...{ chosen: [], busy: null, refused: null },
});

/** The lesson as an address has it. */
export function addressOf(
  { choice }: LessonState,
  chart: Readonly<Record<string, string | undefined>>,
): URLSearchParams {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(chart)) if (value) query.set(name, value);
  query.set("level", choice.level);
  query.set("feel", choice.feel);
  if (choice.lens !== "") query.set("lens", choice.lens);
  for (const shape of choice.shapes) query.append("shape", shape);
  return query;
}

/** What is sent to hand out the lesson that is seen; null while there is none, or nobody to get it. */
export function handingOf({ sheet, choice, chosen: players, handedOn }: LessonState): NewLesson | null {
  if (sheet === null || players.length === 0 || handedOn === "") return null;
  return {
    chart: sheet.chart.text,
    ...{
      level: choice.level,
      feel: choice.feel,
      shapes: [...choice.shapes],
      players: [...players],
      handedOn,
    },
    ...(choice.lens === "" ? {} : { lens: choice.lens }),
  };
}

/** "Handed out to Ida and Ole. It waits on their pages until a take on these chords answers it." */
export function handedWords(handed: readonly Named[]): string {
  return `Handed out to ${listInWords(handed.map(({ name }) => name))}. It waits on ${handed.length === 1 ? "the player's page" : "their pages"} until a take on these chords answers it.`;
}
