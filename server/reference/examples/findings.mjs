/**
 * A script: what would a teacher say of a solo? The file is analysed by a running service and not kept.
 *
 *   node findings.mjs http://127.0.0.1:4000 solo.mid blues-quick-change F
 */
import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { createClient } from "ledgerline/client";

const [url, file, form, key] = process.argv.slice(2);
const ledgerline = createClient(url, { token: process.env.LEDGERLINE_TOKEN });

const bytes = new Uint8Array(await readFile(file));
const account = await ledgerline.analyse({ name: basename(file), bytes }, { form, key });

for (const { kind, text, bars } of account.findings) {
  const where = bars.map(({ chorus, bar }) => `${chorus}.${bar}`).join(" ");
  console.log(`${kind}: ${text} [${where}]`);
}
