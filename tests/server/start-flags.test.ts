/** The service is started alike by the package's script, by the container file and by the service file. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { argumentsOf } from "./processes.ts";

const operate = (file: string) => readFileSync(`server/operate/${file}`, "utf8");

it("starts by the same flags of Node.js wherever it is run", () => {
  const flags = argumentsOf("server/main.ts");
  expect(flags.slice(-2)).toEqual(["server/run.js", "main"]);
  const container = /^CMD (\[.*\])$/m.exec(operate("Containerfile"))![1]!;
  expect(JSON.parse(container)).toEqual(["node", ...flags]);
  const service = /^ExecStart=(.*)$/m.exec(operate("ledgerline.service"))![1]!;
  expect(service.split(" ")).toEqual(["/usr/bin/node", ...flags]);
});

it("gives threads one setting of the C library's pools in both", () => {
  expect(operate("Containerfile")).toMatch(/^ENV MALLOC_ARENA_MAX=2$/m);
  expect(operate("ledgerline.service")).toMatch(/^Environment=MALLOC_ARENA_MAX=2$/m);
});
