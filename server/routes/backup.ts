/** `GET /backup`: all that the store holds, as a file that `restore` puts into a new store of either kind. */
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGzip } from "node:zlib";
import { backupLines } from "../backup/write.ts";
import { type Route, route } from "../route.ts";

const TYPE = "application/gzip";

export const backupRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/backup",
    access: "owner",
    summary:
      "All that the store holds at this moment, recordings and hashes of tokens too; the command restore puts it into a new store",
    answers: {
      200: { description: "lines of JSON, compressed by gzip, with hashes at their end", type: TYPE },
    },
    example: {},
    handle: async ({ services }) => ({
      stream: async (_request, response) => {
        response.writeHead(200, {
          "content-type": TYPE,
          "content-disposition": 'attachment; filename="ledgerline-backup.gz"',
        });
        await pipeline(Readable.from(backupLines(services.database)), createGzip(), response);
      },
    }),
  }),
];
