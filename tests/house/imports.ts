/** Which room may import which, by the table in `rooms.json`; no file imports itself by a detour; `src` knows few packages. */
import type { Breach } from "./breach.ts";
import type { Import, SourceFile } from "./tree.ts";

export interface Room {
  /** Folder: "src/take"; "src" is for the files that stand in no room. */
  readonly name: string;
  /** Files that belong to it though they stand outside the folder. */
  readonly files?: readonly string[];
  readonly holds: string;
  /** Rooms, single files, "ground", "all of src" or "everything". */
  readonly mayImport: readonly string[];
  /** What it may take types from, beside that. */
  readonly types?: readonly string[];
}

export interface House {
  /** Rooms below all others, which "ground" stands for. */
  readonly ground: readonly string[];
  readonly rooms: readonly Room[];
}

/** The room of a file, or null when no room of the table holds it. A folder of `src` that is not listed is no room. */
function roomOf(path: string, house: House): Room | null {
  const listed = house.rooms.find((room) => room.files?.includes(path));
  if (listed) return listed;
  const around = house.rooms.filter((room) => path.startsWith(`${room.name}/`));
  const room = around.reduce<Room | null>(
    (inner, one) => (one.name.length > (inner?.name.length ?? 0) ? one : inner),
    null,
  );
  return room?.name === "src" && path.split("/").length > 2 ? null : room;
}

/** Imports from one room into another that the table does not allow. */
export function forbiddenImports(files: readonly SourceFile[], house: House): Breach[] {
  return files.flatMap((file): Breach[] => {
    const room = roomOf(file.path, house);
    if (room === null) {
      return [{ where: file.path, text: "stands in no room: name its folder in tests/house/rooms.json" }];
    }
    return file.imports
      .filter((found) => found.target !== null && !isAllowed(room, found, house))
      .map((found) => ({
        where: `${file.path}:${found.line}`,
        text: `imports ${found.target}: ${room.name} may import ${allowance(room)} (tests/house/rooms.json)`,
      }));
  });
}

function isAllowed(room: Room, found: Import, house: House): boolean {
  const target = found.target!;
  const other = roomOf(target, house);
  if (other === room) return true;
  const names = found.typeOnly ? [...room.mayImport, ...(room.types ?? [])] : room.mayImport;
  return names.some((name) => {
    if (name === "everything") return true;
    if (name === "all of src") return target.startsWith("src/");
    if (name === "ground") return other !== null && house.ground.includes(other.name);
    return name === target || name === other?.name;
  });
}

/** What a room may import, in words; the guide's table says the same. */
export function allowance(room: Room): string {
  const words = room.mayImport.map((name) => (name.startsWith("src/") ? name.slice(4) : name));
  const types = (room.types ?? []).map((name) => `types of ${name.replace("all of ", "")}`);
  return [...words, ...types].join(", ") || "nothing";
}

/** Rings of imports, each told once; types count, since a ring of types is a ring of thoughts. */
export function importCycles(files: readonly SourceFile[]): Breach[] {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const done = new Set<string>();
  const way: string[] = [];
  const breaches: Breach[] = [];
  const enter = (path: string) => {
    const back = way.indexOf(path);
    if (back >= 0) {
      const ring = [...way.slice(back), path];
      breaches.push({ where: ring[0]!, text: `imports itself: ${ring.join(" -> ")}` });
      return;
    }
    if (done.has(path)) return;
    way.push(path);
    for (const { target } of byPath.get(path)?.imports ?? []) {
      if (target !== null && byPath.has(target)) enter(target);
    }
    way.pop();
    done.add(path);
  };
  for (const file of files) enter(file.path);
  return breaches;
}

/** Packages that pure code may use: none that opens a file, a socket or a page. */
export function foreignPackages(
  files: readonly SourceFile[],
  pure: string,
  packages: readonly string[],
): Breach[] {
  return files
    .filter((file) => file.path.startsWith(`${pure}/`))
    .flatMap((file) =>
      file.imports
        .filter((found) => found.target === null && !packages.includes(packageOf(found.request)))
        .map((found) => ({
          where: `${file.path}:${found.line}`,
          text: `imports ${found.request}: ${pure} is pure, and may use ${packages.join(", ")}`,
        })),
    );
}

function packageOf(request: string): string {
  return request.split("/", request.startsWith("@") ? 2 : 1).join("/");
}
