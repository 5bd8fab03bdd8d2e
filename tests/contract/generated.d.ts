/** The client that a generator makes of the published document; `every-call.test.ts` makes it and compiles against it. */
declare module "ledgerline-generated";
