/** Whose sound a recording is: what share of it is the piano's, and what share that of others. */
import { listInWords } from "../words/index.ts";
import type { Company } from "./heard.ts";
import { type Shares, wholeOf } from "./shares.ts";

/** In the order of the network's answer. What is left to the whole of a frame is that nothing sounds there. */
const PLAYERS = ["piano", "instruments", "voice", "drums"] as const;

/** Numbers of a frame in the network's answer. */
export const COMPANY_WIDTH = PLAYERS.length + 1;

/** Less than this share of the time is a click or a hiss, not music: of noise alone the network says .004. */
const LEAST_SOUNDING = 0.05;

/** @returns shares of the whole recording, 1 together; frames in which nothing sounds do not count. Null where hardly anything sounds. */
export function companyOf(said: Shares): Company | null {
  const sums = PLAYERS.map(() => 0);
  for (let at = 0; at < said.length; at += COMPANY_WIDTH)
    for (let i = 0; i < sums.length; i++) sums[i] = sums[i]! + said[at + i]!;
  const whole = sums.reduce((sum, value) => sum + value, 0);
  if (whole < (LEAST_SOUNDING * wholeOf(said) * said.length) / COMPANY_WIDTH) return null;
  const [piano, instruments, voice, drums] = sums.map((value) => value / whole) as [
    number,
    number,
    number,
    number,
  ];
  return { piano, instruments, voice, drums };
}

/**
 * Shares of the piano below which a recording is refused, and below which a warning is given. Chosen on pianos and
 * others of the training through other rooms: of 132 pianos alone the lowest had .44, of bands, drums and voices the
 * highest had .01, so that .35 leaves most of the room to pianos that no one rendered; below .75 were fewer than one in
 * twenty of these pianos. What both do to pianos and others that were never trained on stands in
 * `corpus/listening/README.md`.
 */
export const PIANO_SHARE = { refused: 0.35, warned: 0.75 } as const;

/** Others are named when they have at least this share. */
const NAMED = 0.1;
const NAMES = { instruments: "other instruments", voice: "voices", drums: "drums" } as const;

/** Who else sounds, most first, in words: "drums and other instruments"; the strongest when none has much. */
export function othersIn(company: Company): string {
  const others = (Object.keys(NAMES) as (keyof typeof NAMES)[]).sort((a, b) => company[b] - company[a]);
  const named = others.filter((name, i) => i === 0 || company[name] >= NAMED);
  return listInWords(named.map((name) => NAMES[name]));
}
