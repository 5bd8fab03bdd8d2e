/** Lessons that were handed out to a player, and the takes that answered them. */
import { parseChart, sameChanges } from "../src/chart/index.ts";
import { openAccount } from "./analysis/analyst.ts";
import type { HandedLesson } from "./contract/lessons.ts";
import type { Queryable } from "./store/database.ts";
import { type LessonRow, lessonsOf, takesSince } from "./store/lessons.ts";
import { findAccount } from "./store/takes.ts";

/** Lessons with what has answered them. */
export async function handedLessons(database: Queryable, player: string): Promise<HandedLesson[]> {
  const rows = await lessonsOf(database, player);
  return Promise.all(
    rows.map(async ({ wish, ...row }) => ({
      ...row,
      chart: wish.chart,
      level: wish.level,
      lens: wish.lens?.name ?? null,
      answer: await answerTo(database, player, { ...row, wish }),
    })),
  );
}

/** Number of a player's lessons that no take has answered. */
export async function waitingLessons(database: Queryable, player: string): Promise<number> {
  return (await handedLessons(database, player)).filter(({ answer }) => answer === null).length;
}

/** The first take after the lesson that is played on its chords. */
async function answerTo(
  database: Queryable,
  player: string,
  { id, wish }: LessonRow,
): Promise<HandedLesson["answer"]> {
  const chart = parseChart(wish.chart);
  for (const { id: take, title, date, chartText: given } of await takesSince(database, player, id)) {
    const text = given ?? (await ownChart(database, take));
    if (text !== null && sameChanges(chart, parseChart(text))) return { take, title, date };
  }
  return null;
}

/** The chart that a take brought itself; an account is opened for it. */
async function ownChart(database: Queryable, take: string): Promise<string | null> {
  const account = await findAccount(database, take);
  return account === null ? null : openAccount(account).chart.text;
}
