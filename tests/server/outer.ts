/** The same service once more, as it answers on a network: every request needs a token. */
import type { AddressInfo } from "node:net";
import { createApp } from "../../server/app.ts";
import type { RunningServer } from "../../server/start.ts";
import { createToken, type NewToken } from "../../server/store/tokens.ts";

export interface Outer {
  /** Makes a token and calls with it. */
  as(token: NewToken): Promise<Caller>;
  close(): void;
}

export interface Caller {
  readonly id: string;
  (path: string, init?: RequestInit): Promise<Response>;
}

export async function outerOf(
  { services }: RunningServer,
  changed: Partial<RunningServer["services"]> = {},
): Promise<Outer> {
  const outer = createApp({ ...services, ...changed, needsToken: true }).listen(0, "127.0.0.1");
  await new Promise((done) => outer.once("listening", done));
  const url = `http://127.0.0.1:${(outer.address() as AddressInfo).port}/api`;
  return {
    as: async (wanted) => {
      const { id, token } = await createToken(services.database, wanted);
      const call = (path: string, init: RequestInit = {}) =>
        fetch(`${url}${path}`, { ...init, headers: { ...init.headers, authorization: `Bearer ${token}` } });
      return Object.assign(call, { id });
    },
    close: () => {
      outer.closeAllConnections();
      outer.close();
    },
  };
}
