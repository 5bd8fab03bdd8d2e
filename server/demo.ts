/** Loads the demo corpus into a store that has never held it. */
import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { z } from "zod";
import { chartText, formChart } from "../src/chart/index.ts";
import type { Services } from "./services.ts";
import type { Queryable } from "./store/database.ts";
import { createRow } from "./store/library.ts";
import { createTake } from "./store/takes.ts";

const CORPUS = new URL("../corpus/", import.meta.url);

const manifestSchema = z.object({
  players: z.array(z.object({ id: z.string(), name: z.string(), about: z.string() })),
  charts: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      form: z.string().nullable(),
      key: z.string(),
      file: z.string().nullable(),
    }),
  ),
  takes: z.array(
    z.object({
      id: z.string(),
      file: z.string(),
      chart: z.string(),
      player: z.string(),
      title: z.string(),
      date: z.string(),
      tags: z.array(z.string()),
      shapes: z.array(z.string()),
    }),
  ),
});

type Manifest = z.infer<typeof manifestSchema>;

/** Once: a demo take that the user has deleted does not come back. */
export async function loadDemo(services: Services): Promise<void> {
  const { database } = services;
  const landed = await database.query("select 1 from marks where name = 'demo'");
  if (landed.length > 0) return;
  const manifest = manifestSchema.parse(JSON.parse(await text("manifest.json")));
  const charts = new Map(await Promise.all(manifest.charts.map(chartOf)));
  for (const { id, name, about } of manifest.players) {
    if (!(await exists(database, "players", id)))
      await createRow(database, "players", { id, name, note: about });
  }
  for (const [id, chart] of charts) {
    if (!(await exists(database, "charts", id))) await createRow(database, "charts", { id, ...chart });
  }
  await Promise.all(manifest.takes.map((take) => loadTake(services, take, charts.get(take.chart)!.text)));
  await database.query("insert into marks (name) values ('demo')");
}

async function loadTake(services: Services, take: Manifest["takes"][number], chart: string): Promise<void> {
  if (await exists(services.database, "takes", take.id)) return;
  await createTake(services.database, services.analyst, {
    id: take.id,
    bytes: new Uint8Array(await readFile(new URL(take.file, CORPUS))),
    fileName: basename(take.file),
    player: { id: take.player },
    title: take.title,
    date: take.date,
    chartText: chart,
    options: { shapes: take.shapes },
    tags: take.tags,
    demo: true,
  });
}

async function chartOf(chart: Manifest["charts"][number]): Promise<[string, { name: string; text: string }]> {
  const content =
    chart.file === null
      ? chartText({ ...formChart(chart.form!, chart.key), name: chart.name })
      : await text(chart.file);
  return [chart.id, { name: chart.name, text: content }];
}

async function exists(
  database: Queryable,
  table: "players" | "charts" | "takes",
  id: string,
): Promise<boolean> {
  return (await database.query(`select 1 from ${table} where id = $1`, [id])).length > 0;
}

function text(name: string): Promise<string> {
  return readFile(new URL(name, CORPUS), "utf8");
}
