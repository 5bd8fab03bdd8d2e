/** `npm run report -- durability [KILLS]`: kills at random moments, on both stores, and what was lost or doubled. */
import { type KillOutcome, killAtRandom } from "../server/killing.ts";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";

export async function report(args: string[]): Promise<void> {
  const kills = Number(args[0] ?? 20);
  const takes = kills * 120;
  const log = (line: string) => console.log(`  ${line}`);
  console.log(`embedded store, ${takes} takes, the server killed ${kills} times`);
  print(takes, await killAtRandom({ takes, kills, seed: 11, postgres: null, log }));
  if (!postgresIsInstalled()) {
    console.log("PostgreSQL is not installed here: the second half is skipped");
    return;
  }
  const postgres = await startPostgres();
  try {
    console.log(
      `PostgreSQL, two workers, ${takes} takes; server, workers and database killed ${kills} times`,
    );
    print(takes, await killAtRandom({ takes, kills, seed: 12, postgres, log }));
  } finally {
    postgres.stop();
  }
}

function print(takes: number, outcome: KillOutcome): void {
  const lost = Math.max(0, takes - outcome.takes);
  const twice = Math.max(0, outcome.takes - takes);
  console.log(`  ${outcome.kills} kills: ${lost} lost, ${twice} twice, ${outcome.failed} failed`);
  console.log(`  ${JSON.stringify(outcome)}`);
}
