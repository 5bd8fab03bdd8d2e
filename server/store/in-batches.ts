/**
 * Asks many questions of one kind together: while one statement is under way, the questions that come wait, and go with
 * the next. A store with one connection is asked once for two hundred readers, and nobody is told what was so before
 * they asked.
 */

/**
 * @param ask what is known of these different keys; keys that it leaves out are answered with null
 * @param most keys of one statement
 */
export function inBatches<Value>(
  ask: (keys: readonly string[]) => Promise<ReadonlyMap<string, Value>>,
  most: number,
): (key: string) => Promise<Value | null> {
  let waiting = new Map<string, Asked<Value>[]>();
  let asking = false;
  const next = async () => {
    asking = true;
    while (waiting.size > 0) {
      const batch = new Map([...waiting].slice(0, most));
      waiting = new Map([...waiting].slice(most));
      try {
        const known = await ask([...batch.keys()]);
        for (const [key, all] of batch) for (const { done } of all) done(known.get(key) ?? null);
      } catch (error) {
        for (const all of batch.values()) for (const { failed } of all) failed(error);
      }
    }
    asking = false;
  };
  return (key) =>
    new Promise((done, failed) => {
      const same = waiting.get(key);
      if (same === undefined) waiting.set(key, [{ done, failed }]);
      else same.push({ done, failed });
      if (!asking) void next();
    });
}

interface Asked<Value> {
  readonly done: (value: Value | null) => void;
  readonly failed: (error: unknown) => void;
}
