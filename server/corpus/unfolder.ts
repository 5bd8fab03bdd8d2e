/** Uploads for a corpus, opened in a thread and read a file at a time: nothing of them waits in memory. */
import { threadFile } from "../analysis/thread-file.ts";
import { openThreads } from "../analysis/threads.ts";
import { problemFrom } from "../serialise-problem.ts";
import { type Bundle, bundleOf, type SentFile } from "./bundle.ts";
import { filePart } from "./file-part.ts";
import type { UnfoldResult, UnfoldTask } from "./unfold-worker.ts";

export interface Unfolder {
  /**
   * @param folder where zips may be unfolded to; the files are read from there as long as the bundle is in use
   * @throws Problem for a zip that cannot be opened or unfolds beyond the limits, or a manifest with a mistake
   */
  open(files: readonly SentFile[], manifest: string | undefined, folder: string): Promise<Bundle>;
  close(): Promise<void>;
}

export function createUnfolder(): Unfolder {
  // One at a time: a zip is in memory while it is unfolded.
  const thread = openThreads({ least: 0, most: 1, idleMs: 10_000, heapMb: 512 });
  return {
    open: async (files, manifest, folder) => {
      const task: UnfoldTask = { files, manifest, folder };
      const result: UnfoldResult = await thread.run(task, { filename: threadFile("unfold") });
      if (!result.ok) throw problemFrom(result.problem);
      const parts = new Map(result.files.map((part) => [part.name, part]));
      const open = async (name: string) => {
        const part = parts.get(name);
        return part === undefined ? null : filePart(part.path, part.at, part.size);
      };
      return bundleOf([...parts.keys()], open, result.entries);
    },
    close: () => thread.destroy(),
  };
}
