/** Choruses taken together in the small pictures beside a long solo, where one after the other they would be metres tall. */

/** Choruses that stand one by one: as many as have room beside their picture. */
const ALONE = 8;
/** Spans into which more of them are taken together: enough to see where a solo goes. */
const SPANS = 6;

/** Choruses that follow one another. */
export interface ChorusSpan {
  readonly first: number;
  readonly last: number;
}

/** Each chorus alone, or, of more than eight, at most six spans as equal as can be, the longer ones first. */
export function chorusSpans(choruses: readonly number[]): ChorusSpan[] {
  if (choruses.length <= ALONE) return choruses.map((chorus) => ({ first: chorus, last: chorus }));
  const [length, longer] = [Math.floor(choruses.length / SPANS), choruses.length % SPANS];
  return Array.from({ length: SPANS }, (_, i) => {
    const from = i * length + Math.min(i, longer);
    const to = from + length + (i < longer ? 1 : 0) - 1;
    return { first: choruses[from]!, last: choruses[to]! };
  });
}

export const isIn = ({ first, last }: ChorusSpan, chorus: number): boolean =>
  chorus >= first && chorus <= last;

/** "7", "1 to 9" */
export const spanFigures = ({ first, last }: ChorusSpan): string =>
  first === last ? String(first) : `${first} to ${last}`;
