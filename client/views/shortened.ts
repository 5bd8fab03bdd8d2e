/** As much of a text as `room` pixels hold, at about `letter` pixels a letter; the table has all of it. */
export function shortened(text: string, room: number, letter = 6.6): string {
  const most = Math.max(1, Math.floor(room / letter));
  return text.length <= most ? text : `${text.slice(0, most - 1).trimEnd()}…`;
}
