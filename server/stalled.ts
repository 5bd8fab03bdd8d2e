/**
 * Ends connections whose client takes nothing of what it is sent any more: one that stopped reading, or is gone without
 * a word. Node.js limits how long a request may take to come in, and not how long its answer may wait to be taken.
 */
import type { Server } from "node:http";
import type { Socket } from "node:net";

interface Seen {
  /** Bytes that the system has taken for the client. */
  taken: number;
  /** When that number last rose, or nothing was left to be taken; milliseconds. */
  at: number;
}

/** @param patience milliseconds for which nothing may be taken */
export function endStalled(server: Server, patience: number): void {
  const open = new Map<Socket, Seen>();
  server.on("connection", (socket) => {
    open.set(socket, { taken: 0, at: Date.now() });
    socket.once("close", () => open.delete(socket));
  });
  const look = setInterval(() => {
    for (const [socket, seen] of open) {
      const left = socket.writableLength;
      const taken = socket.bytesWritten - left;
      if (left === 0 || taken > seen.taken) {
        seen.taken = taken;
        seen.at = Date.now();
      } else if (Date.now() - seen.at >= patience) socket.destroy();
    }
  }, patience / 4).unref();
  server.once("close", () => clearInterval(look));
}
