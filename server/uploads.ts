/**
 * Reads forms with files. What is large goes to disk as it comes, so that no slow sender holds memory; a single file is
 * read from there once all of it has come.
 */
import { readFile } from "node:fs/promises";
import type { Request, RequestHandler, Response } from "express";
import multer, { MulterError } from "multer";
import { HttpProblem } from "./errors.ts";
import type { Context, UploadedFile } from "./route.ts";
import { newUploadFolder, removeUploadFolder } from "./upload-folder.ts";

/** Largest file taken, in bytes. A solo of ten minutes is far below; the readers are tested up to here. */
const FILE_LIMIT = 64 * 2 ** 20;

/** Largest upload and most files taken in one go for a corpus; what is larger is sent in parts. */
const BUNDLE_LIMIT = 128 * 2 ** 20;
export const BUNDLE_FILES = 5000;

/** What the fields beside a file may take, in bytes: the manifest of a corpus is one of them. */
const FIELDS_LIMIT = 2 * 2 ** 20;
const FIELD_LIMIT = 50 * 2 ** 20;

/** Uploads up to this are read into memory as they come, in bytes. */
const SMALL = 2 ** 20;
/** Bytes of larger single files that are in memory at once; others wait on disk until there is room. */
const ROOM = 192 * 2 ** 20;

/** One file. */
export const readForm: readonly RequestHandler[] = [
  limitBody(FILE_LIMIT + FIELDS_LIMIT),
  fieldsAndFiles(FILE_LIMIT, 1, SMALL),
  intoMemory(),
];

/** Any number of files, which stay on disk. */
export const readForms: readonly RequestHandler[] = [
  limitBody(BUNDLE_LIMIT),
  fieldsAndFiles(BUNDLE_LIMIT, BUNDLE_FILES, -1),
];

/** What `readForm` and `readForms` have read. */
export function uploadsOf(
  request: Request,
  response: Response,
): Pick<Context<never, never, never>, "files" | "sent"> {
  const all = Array.isArray(request.files) ? request.files : [];
  const folder: string = response.locals.uploads ?? "";
  return {
    files: all.flatMap((file): UploadedFile[] => {
      const { buffer } = file as { buffer?: Buffer };
      if (buffer === undefined) return [];
      return [
        { name: nameOf(file), bytes: new Uint8Array(buffer.buffer, buffer.byteOffset, buffer.byteLength) },
      ];
    }),
    sent: {
      folder,
      files: all.flatMap((file) =>
        (file as { buffer?: Buffer }).buffer === undefined
          ? [{ name: nameOf(file), path: file.path, size: file.size }]
          : [],
      ),
    },
  };
}

/** The name came as bytes that multer reads as Latin-1; browsers send UTF-8. */
function nameOf(file: Express.Multer.File): string {
  return Buffer.from(file.originalname, "latin1").toString("utf8").replaceAll("\0", "");
}

/** @param small bytes up to which an upload is kept in memory */
function fieldsAndFiles(fileSize: number, files: number, small: number): RequestHandler {
  const limits = { fileSize, files, fields: 40, fieldSize: FIELD_LIMIT, parts: files + 40 };
  const inMemory = multer({ storage: multer.memoryStorage(), limits }).array("file");
  return async (request, response, next) => {
    const ended = (error: unknown) => next(error === undefined ? undefined : unreadable(error));
    if (Number(request.headers["content-length"]) <= small) {
      inMemory(request, response, ended);
      return;
    }
    const folder = await uploadFolder(response);
    let count = 0;
    const storage = multer.diskStorage({
      destination: folder,
      // Never the name that was sent, which may tell of a person.
      filename: (_request, _file, named) => named(null, String(count++)),
    });
    multer({ storage, limits }).array("file")(request, response, ended);
  };
}

/** The folder of a request, which goes when it has been answered, whatever the answer. */
async function uploadFolder(response: Response): Promise<string> {
  const folder = await newUploadFolder();
  response.locals.uploads = folder;
  response.once("close", () => {
    // A handler that is still at work would miss its files; it removes them itself when it has ended.
    if (response.locals.atWork !== true) void removeUploadFolder(folder).catch(() => {});
  });
  return folder;
}

/** To be run around the handler of a route. */
export async function whileUploadsLast<T>(response: Response, work: () => Promise<T>): Promise<T> {
  response.locals.atWork = true;
  try {
    return await work();
  } finally {
    response.locals.atWork = false;
    const folder: string | undefined = response.locals.uploads;
    if (folder !== undefined) await removeUploadFolder(folder).catch(() => {});
  }
}

/** Brings single files from disk, as many bytes at once as there is room for. */
function intoMemory(): RequestHandler {
  let room = ROOM;
  const waiting: { readonly size: number; readonly go: () => void }[] = [];
  const next = () => {
    for (let first = waiting[0]; first !== undefined && first.size <= room; first = waiting[0]) {
      waiting.shift();
      room -= first.size;
      first.go();
    }
  };
  return async (request, response, done) => {
    const [file] = Array.isArray(request.files) ? request.files : [];
    if (file === undefined || (file as { buffer?: Buffer }).buffer !== undefined) {
      done();
      return;
    }
    let held = false;
    let gone = false;
    const give = () => {
      gone = true;
      if (!held) return;
      held = false;
      room += file.size;
      next();
    };
    response.once("close", give);
    await new Promise<void>((go) => {
      waiting.push({ size: file.size, go });
      next();
    });
    held = true;
    if (gone) {
      give();
      return;
    }
    file.buffer = await readFile(file.path);
    done();
  };
}

/** What the reader of forms throws of a form that is cut off or badly made has no status of its own. */
function unreadable(error: unknown): unknown {
  if (!(error instanceof Error) || error instanceof MulterError || "code" in error) return error;
  return new HttpProblem(
    400,
    "invalid-upload",
    `The upload could not be read: ${error.message}`,
    null,
    "Send the form again, as multipart/form-data with its boundary.",
  );
}

/** Refuses what is too large before any of it is read, so the length of an upload must be known. */
function limitBody(most: number): RequestHandler {
  return (request, _response, next) => {
    const length = request.headers["content-length"];
    if (length === undefined) {
      throw new HttpProblem(
        411,
        "length-needed",
        "The upload does not say how long it is",
        "content-length",
        "Send it with a Content-Length, not in chunks.",
      );
    }
    if (Number(length) > most) {
      throw new HttpProblem(
        413,
        "body-too-large",
        `The upload is larger than the ${Math.round(most / 2 ** 20)} MB that this service takes at once`,
        null,
        "Send it in parts.",
      );
    }
    next();
  };
}
