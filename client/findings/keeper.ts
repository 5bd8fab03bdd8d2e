/** Keeps the feedback of takes: sends what is new, waits for the network, and goes on when the page is left. */
import type { Feedback } from "../../src/findings/lesson.ts";
import { ApiError } from "../shell/api.ts";
import { keepNotes, readNotes } from "./feedback-notes.ts";
import {
  isKept,
  type Keeping,
  keepingOf,
  kept,
  met,
  refused,
  sent,
  takenOver,
  toSend,
  unkept,
} from "./keeping-model.ts";
import { forgetLeftOf, type LeftBehind, leaveBehind, takesLeftBehind, takeUp } from "./left-behind.ts";

export interface Keeper {
  readonly take: string;
  title(): string;
  state(): Keeping;
  /** @param soon what is typed is sent when the typing rests; everything else at once */
  change(next: (state: Keeping) => Keeping, soon?: "soon"): void;
  /** Sends now what is not kept. */
  again(): void;
  /** Calls `heard` after each change until the returned function is called. */
  watch(heard: () => void): () => void;
}

/** Milliseconds of rest after a key until what is typed is sent: a word is not cut, and little waits. [practice] */
const REST_MS = 700;
/** Milliseconds until a try is repeated; doubled with each one that fails, up to the longest. */
const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 60_000;

const keepers = new Map<string, Keeper>();
const watchers = new Set<() => void>();
// The network is back, or the window goes out of sight and may not come back.
for (const [target, event] of [
  [window, "online"],
  [document, "visibilitychange"],
] as const)
  target.addEventListener(event, () => {
    for (const keeper of keepers.values()) keeper.again();
  });

/** The keeper of a take: with what the server has, and what earlier windows left. @throws ApiError as reading does */
export async function openKeeper(take: string): Promise<Keeper> {
  const stands = await readNotes(take);
  const known = keepers.get(take);
  const keeper = known ?? startKeeper(take, keepingOf(stands));
  // While something is on its way, what was read may be from before or after it: the answer tells.
  if (known) keeper.change((now) => (now.sending === null ? met(now, stands) : now));
  takeOver(keeper, await takeUp(take));
  return keeper;
}

/** Sends what earlier windows left, whatever page stands; what they left of a take that was deleted is taken out. */
export async function resumeKeeping(): Promise<void> {
  for (const take of await takesLeftBehind()) {
    if (keepers.has(take)) continue;
    const stands = await readNotes(take).catch((error) => (isGone(error) ? "gone" : null));
    if (stands === "gone") {
      forgetLeftOf(take);
      continue;
    }
    const found = await takeUp(take);
    const [first] = found;
    if (first === undefined) continue;
    // A page may have opened the take meanwhile: there is one keeper for it. Without a network it begins with what the
    // earlier window knew.
    takeOver(keepers.get(take) ?? startKeeper(take, keepingOf(stands ?? first.unkept.base)), found);
  }
}

/** Keepers that could not get something kept. */
export const inTrouble = (): Keeper[] =>
  [...keepers.values()].filter((one) => one.state().trouble !== null && !isKept(one.state()));

/** Calls `heard` after each change of any keeper. */
export function watchKeepers(heard: () => void): void {
  watchers.add(heard);
}

/** Names the take, for where its feedback is told of on other pages. */
const titles = new Map<string, string>();
export const nameTake = (take: string, title: string | null): void => {
  titles.set(take, title ?? "a take");
};

function takeOver(keeper: Keeper, found: readonly LeftBehind[]): void {
  for (const { title, unkept: left } of found) {
    if (!titles.has(keeper.take)) titles.set(keeper.take, title);
    keeper.change((now) => takenOver(now, left));
  }
}

function startKeeper(take: string, first: Keeping): Keeper {
  let state = first;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wait = FIRST_WAIT_MS;
  const heards = new Set<() => void>();

  const turn = (next: (now: Keeping) => Keeping) => {
    state = next(state);
    const left = unkept(state);
    leaveBehind(take, left && { title: titles.get(take) ?? "a take", unkept: left });
    for (const heard of [...heards, ...watchers]) heard();
  };
  const later = (ms: number) => {
    clearTimeout(timer);
    timer = setTimeout(() => void send(), ms);
  };
  const send = async () => {
    clearTimeout(timer);
    const notes = toSend(state);
    if (notes === null) return;
    turn(sent);
    try {
      const answer = await keepNotes(take, notes);
      wait = FIRST_WAIT_MS;
      turn((now) => kept(now, answer));
      void send();
    } catch (error) {
      const stands = standsInstead(error);
      if (stands !== null) {
        turn((now) => met({ ...now, sending: null }, stands));
        void send();
        return;
      }
      if (isGone(error)) keepers.delete(take);
      turn((now) => refused(now, error));
      if (isGone(error)) forgetLeftOf(take);
      if (!passes(error)) return;
      later(wait);
      wait = Math.min(2 * wait, LONGEST_WAIT_MS);
    }
  };
  const keeper: Keeper = {
    take,
    title: () => titles.get(take) ?? "a take",
    state: () => state,
    change(next, soon) {
      turn(next);
      if (soon === undefined) void send();
      else later(REST_MS);
    },
    again: () => void send(),
    watch(heard) {
      heards.add(heard);
      return () => heards.delete(heard);
    },
  };
  keepers.set(take, keeper);
  return keeper;
}

/** What the server has instead of what was sent; null where it was refused for another reason. */
function standsInstead(error: unknown): Feedback | null {
  return error instanceof ApiError && error.code === "changed-meanwhile" ? (error.stands as Feedback) : null;
}

/** Whether the take is no longer there, at least for whoever is signed in: nothing of it is kept here then. */
const isGone = (error: unknown): boolean => error instanceof ApiError && error.status === 404;

/** A refusal that may be gone after a while: no network, a server that starts or is busy. */
const passes = (error: unknown): boolean =>
  error instanceof ApiError && (error.status === 0 || error.status === 429 || error.status >= 500);
