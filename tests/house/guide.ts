/** The table of rooms in DEVELOPERS.md says what `rooms.json` says. */
import type { Breach } from "./breach.ts";
import { allowance, type House } from "./imports.ts";

const HEAD = ["folder", "what it holds", "may import"];

/** The table as it stands in the guide, columns padded as the guide pads them. */
function roomTable(house: House): string {
  const rows = house.rooms.map((room) => {
    const name = room.name === "src" ? "`src/*.ts`" : `\`${room.name}\``;
    return [name, room.holds, allowance(room)];
  });
  const widths = HEAD.map((word, i) => Math.max(word.length, ...rows.map((row) => row[i]!.length)));
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, i) => cell.padEnd(widths[i]!)).join(" | ")} |`;
  return [line(HEAD), line(widths.map((width) => "-".repeat(width))), ...rows.map(line)].join("\n");
}

/** The guide with the table put in place of the one that stands there. Throws when it holds none. */
export function withTable(guide: string, house: House): string {
  const stands = /^\| folder .*\n(\|.*\n)+/m;
  if (!stands.test(guide)) throw new Error("DEVELOPERS.md has no table that begins with | folder");
  return guide.replace(stands, () => `${roomTable(house)}\n`);
}

export function guideBreaches(guide: string, house: House): Breach[] {
  if (withTable(guide, house) === guide) return [];
  return [
    {
      where: "DEVELOPERS.md",
      text: "its table of rooms is not that of tests/house/rooms.json: run `npm run format`",
    },
  ];
}
