/** `/jobs`: how far a job is, as a value and as server-sent events, and how to stop it. */
import type { Request, Response } from "express";
import { type JobProgress, jobProgressSchema, jobSchema } from "../contract/corpora.ts";
import { idParams } from "../contract/fields.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import { cancelJob, findJob, type Job } from "../store/jobs.ts";

const EVENT_MS = 500;

export const jobRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/jobs/:id",
    access: "job",
    summary: "How far a job is",
    params: idParams,
    answers: { 200: { description: "the job", schema: jobSchema } },
    handle: async ({ params, services }) => ({ status: 200, json: await jobOf(services, params.id) }),
  }),
  route({
    method: "get",
    path: "/jobs/:id/events",
    access: "job",
    summary: "How far a job is, again and again, until it ends: event `progress` with rate and time left",
    params: idParams,
    answers: {
      200: { description: "server-sent events", type: "text/event-stream", line: jobProgressSchema },
    },
    handle: async ({ params, services }) => {
      const first = await jobOf(services, params.id);
      return { stream: (request, response) => follow(services, first, request, response) };
    },
  }),
  route({
    method: "delete",
    path: "/jobs/:id",
    access: "owner",
    summary: "Stop a job; what is done stays",
    params: idParams,
    answers: { 200: { description: "the job", schema: jobSchema } },
    handle: async ({ params, services }) => {
      if (!(await cancelJob(services.database, params.id))) throw notFound("job", params.id);
      return { status: 200, json: await jobOf(services, params.id) };
    },
  }),
];

/** A problem when there is no such job. */
export async function jobOf(services: Services, id: string): Promise<Job> {
  const job = await findJob(services.database, id);
  if (job === null) throw notFound("job", id);
  return job;
}

async function follow(services: Services, first: Job, request: Request, response: Response): Promise<void> {
  response.writeHead(200, {
    "content-type": "text/event-stream",
    "cache-control": "no-store",
    "x-accel-buffering": "no",
  });
  let open = true;
  request.on("close", () => {
    open = false;
  });
  const began = { at: Date.now(), ended: ended(first) };
  for (let job: Job | null = first; open && job !== null; ) {
    const rate = ((ended(job) - began.ended) * 1000) / Math.max(1, Date.now() - began.at);
    const left = rate > 0 ? (job.total - ended(job)) / rate : null;
    const progress: JobProgress = { ...job, takesPerSecond: rate, secondsLeft: left };
    response.write(`event: progress\ndata: ${JSON.stringify(progress)}\n\n`);
    if (job.state === "done" || job.state === "cancelled") break;
    await new Promise((done) => setTimeout(done, EVENT_MS));
    job = open ? await findJob(services.database, first.id) : null;
  }
  response.end();
}

function ended(job: Job): number {
  return job.done + job.failed + job.cancelled + job.repeated;
}
