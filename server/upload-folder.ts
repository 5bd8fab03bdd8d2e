/** Where uploads lie while they are read: a folder for each request, which goes with it. */
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** The name tells the process, so that what a dead one left can be told from what is in use. */
const NAME = /^ledgerline-upload-(\d+)-/;

export function newUploadFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), `ledgerline-upload-${process.pid}-`));
}

export async function removeUploadFolder(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true });
}

/** Removes what processes left that were killed in the middle of an upload: it holds what persons sent. */
export async function removeLeftUploads(): Promise<void> {
  for (const name of await readdir(tmpdir())) {
    const pid = Number(NAME.exec(name)?.[1] ?? Number.NaN);
    if (!Number.isNaN(pid) && pid !== process.pid && !lives(pid))
      await removeUploadFolder(join(tmpdir(), name));
  }
}

function lives(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as { code?: string }).code === "EPERM";
  }
}
