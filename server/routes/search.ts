/** `POST /search`: a pattern in one take, in a player's takes, or in all that are kept. */
import { buildIndex, inContext, search } from "../../src/motif/index.ts";
import { maySee } from "../access.ts";
import { foundSchema, searchBody } from "../contract/pattern.ts";
import { spellHits, told } from "../corpus/spell-hits.ts";
import { decodeLine } from "../corpus/stored-line.ts";
import { type Route, route } from "../route.ts";
import { patternFrom } from "./pattern.ts";

/** Takes searched at once; a larger collection is a corpus, which has an index of its own. */
const MOST_TAKES = 500;

export const searchRoutes: readonly Route[] = [
  route({
    method: "post",
    path: "/search",
    keeps: false,
    access: "member",
    summary: "Where a pattern is played, the closest first",
    body: searchBody,
    answers: {
      200: {
        description: "hits, the titles of their takes, and the pattern as it was read",
        schema: foundSchema,
      },
    },
    example: { body: { viewpoint: "chromatic interval", symbols: [3, 2, 1] } },
    handle: async ({ body, services, actor }) => {
      const pattern = patternFrom(body);
      const rows = await services.database.query<{
        id: string;
        title: string;
        playerId: string | null;
        corpusId: string | null;
        line: Uint8Array;
      }>(
        `select t.id, t.title, t.player_id as "playerId", t.corpus_id as "corpusId", l.line
         from takes t join lines l on l.key = t.analysis
         where t.deleted_at is null and ($1::text is not null or t.corpus_id is null)
           and ($1::text is null or t.id = $1) and ($2::text is null or t.player_id = $2)
         order by t.played_on desc nulls last, t.id limit ${MOST_TAKES}`,
        [body.take ?? null, body.player ?? null],
      );
      const seen = rows.filter((row) => maySee(actor, row));
      const lines = new Map(seen.map(({ id, line }) => [id, decodeLine(line)]));
      const index = buildIndex([...lines].map(([id, notes]) => ({ id, notes })));
      const all = search(index, pattern, { maxEdits: body.maxEdits });
      const hits = all.slice(0, body.limit).map((hit) => {
        const notes = lines.get(hit.take)!;
        return told(inContext(hit, { id: hit.take, notes }), notes);
      });
      const hit = new Set(hits.map(({ take }) => take));
      const titles = Object.fromEntries(
        seen.filter(({ id }) => hit.has(id)).map(({ id, title }) => [id, title]),
      );
      return {
        status: 200,
        json: { found: all.length, hits: await spellHits(services.database, hits), titles, pattern },
      };
    },
  }),
];
