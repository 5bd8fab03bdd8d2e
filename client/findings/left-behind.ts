/** What windows of this browser could not get kept: written while a window stands, read by the next one. */
import type { Unkept } from "./keeping-model.ts";

export interface LeftBehind {
  /** The take's title, as it is told where it does not stand. */
  readonly title: string;
  readonly unkept: Unkept;
}

const KEY = "ledgerline-feedback";
const EARLIER = "ledgerline-window";
const lockOf = (window: string) => `ledgerline-window ${window}`;

/** Each window writes under a name of its own, so that none writes over what another has not got kept. */
const own = Math.random().toString(36).slice(2);
/** The name of this window before it was loaded anew; its lock may be let go a moment after this one has looked. */
const earlier = sessionStorage.getItem(EARLIER);
sessionStorage.setItem(EARLIER, own);
// Held until the window is closed. Without locks (another machine without TLS) every window counts as closed.
navigator.locks?.request(lockOf(own), () => new Promise(() => {})).catch(() => {});

/** Writes what is not kept of a take; null takes it out again. */
export function leaveBehind(take: string, left: LeftBehind | null): void {
  const key = keyOf(take, own);
  try {
    if (left === null) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(left));
  } catch {
    // A browser without room or without a store: it stands on the page until the page is left.
  }
}

/** Takes of which a window that is closed left something. */
export async function takesLeftBehind(): Promise<string[]> {
  return [...new Set((await left()).map(({ take }) => take))];
}

/** What closed windows left of a take. It is taken out once those windows are surely closed and wrote nothing more. */
export async function takeUp(take: string): Promise<LeftBehind[]> {
  const found = (await left()).filter((one) => one.take === take);
  return found.flatMap(({ key, window }) => {
    const text = localStorage.getItem(key);
    if (text === null) return [];
    const remove = () => {
      if (localStorage.getItem(key) === text) localStorage.removeItem(key);
    };
    if (navigator.locks) void navigator.locks.request(lockOf(window), remove).catch(() => {});
    else remove();
    try {
      return [JSON.parse(text) as LeftBehind];
    } catch {
      return [];
    }
  });
}

/** Takes everything out that any window left: on signing out, since it speaks of pupils. */
export function forgetLeft(): void {
  forget(`${KEY} `);
}

/** Takes out what any window left of a take that was deleted. */
export function forgetLeftOf(take: string): void {
  forget(keyOf(take, ""));
}

function forget(beginning: string): void {
  for (const key of Object.keys(localStorage)) if (key.startsWith(beginning)) localStorage.removeItem(key);
}

async function left(): Promise<{ key: string; take: string; window: string }[]> {
  const held = (await navigator.locks?.query())?.held ?? [];
  const living = new Set(held.map(({ name }) => name));
  return Object.keys(localStorage).flatMap((key) => {
    const [name, take, window] = key.split(" ");
    if (name !== KEY || take === undefined || window === undefined || window === own) return [];
    return window === earlier || !living.has(lockOf(window))
      ? [{ key, take: decodeURIComponent(take), window }]
      : [];
  });
}

const keyOf = (take: string, window: string) => `${KEY} ${encodeURIComponent(take)} ${window}`;
