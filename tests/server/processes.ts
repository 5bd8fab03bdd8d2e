/** The server as a process of its own, as a user starts it. */
import { type ChildProcess, spawn } from "node:child_process";
import { readFileSync } from "node:fs";

type Environment = Readonly<Record<string, string | undefined>>;

/** What Node.js is started with by the package's own script for a program of the server, named by its file. */
export function argumentsOf(file: string): string[] {
  const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };
  const program = file.replace(/^server\/|\.ts$/g, "");
  const command = Object.values(scripts).find((script) => script.endsWith(` server/run.js ${program}`));
  if (command === undefined) throw new Error(`no script of the package starts ${file}`);
  return command.split("node ").at(-1)!.split(" ");
}

/** Starts a file of the server and waits for the address that it prints; tries again while its store is not free yet. */
export async function startProcess(
  file: string,
  env: Environment,
  errors: "ignore" | "inherit" = "ignore",
): Promise<{ process: ChildProcess; url: string }> {
  for (let tries = 0; ; tries++) {
    const child = spawn("node", argumentsOf(file), { env, stdio: ["ignore", "pipe", errors] });
    const found = /http:\/\/\S+/.exec(await firstLine(child));
    if (found !== null) return { process: child, url: found[0] };
    await ended(child);
    if (tries > 20) throw new Error("the server does not start");
    await new Promise((done) => setTimeout(done, 200));
  }
}

export function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((done) => child.once("exit", () => done()));
}

function firstLine(child: ChildProcess): Promise<string> {
  return new Promise((done) => {
    let text = "";
    child.stdout!.on("data", (part: Buffer) => {
      text += part.toString();
      if (text.includes("\n")) done(text);
    });
    child.once("exit", () => done(text));
  });
}
