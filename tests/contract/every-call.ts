/**
 * A program of somebody who knows nothing but the published document: it calls every operation through a client that
 * was generated from it. `every-call.test.ts` generates the client, compiles this file against it and runs it.
 */
import * as api from "ledgerline-generated";

/** Where the service is, and what is sent to it. */
export interface Given {
  readonly url: string;
  /** A MIDI file of several choruses. */
  readonly long: Uint8Array<ArrayBuffer>;
  /** MIDI files of two solos of one chorus on the chart. */
  readonly solo: Uint8Array<ArrayBuffer>;
  readonly other: Uint8Array<ArrayBuffer>;
  /** A recording of the first. */
  readonly sound: Uint8Array<ArrayBuffer>;
  readonly chart: string;
  /** Told of every request before its answer is read. */
  readonly fetch: typeof fetch;
}

const { ok } = api;

const DAY = "2026-10-01";
const BLUES = { form: "blues-basic", key: "F" } as const;

/** The generated client takes every media type with "json" in its name for one JSON value; this one holds lines. */
const LINES = {
  fetch: async (input: string | URL | Request, init?: RequestInit) => {
    const { status, body, headers } = await api.defaults.fetch!(input, init);
    const type = headers.get("content-type")!.replace("application/x-ndjson", "text/plain");
    return new Response(body, { status, headers: { "content-type": type } });
  },
};

const file = (bytes: Uint8Array<ArrayBuffer>, name: string) => new File([bytes], name);

export async function callEverything(given: Given): Promise<void> {
  api.defaults.baseUrl = given.url;
  api.defaults.fetch = given.fetch;
  await service();
  await chartsAndHands(given);
  const player = await players();
  const take = await takes(given, player);
  await ofTake(given, take);
  await ofPlayer(player, take);
  await lessons(player);
  await links(player, take);
  await corpora(given);
  await access();
  await deletions(player, take);
}

async function service(): Promise<void> {
  const { status } = await ok(api.getHealth());
  const { analysisVersion } = await ok(api.getReady());
  const metrics = await ok(api.getMetrics());
  await ok(api.getBackup());
  if (status !== "ok" || analysisVersion === "" || !metrics.includes("# HELP"))
    throw new Error("The service is not as it says.");
}

async function chartsAndHands({ chart, long }: Given): Promise<void> {
  await ok(api.getForms());
  await ok(api.postChart({ chart }));
  await ok(api.postChartProposal({ file: file(long, "long.mid") }));
  const stored = await ok(api.postCharts({ name: "Four bars", text: chart }));
  await ok(api.getCharts());
  await ok(api.getChart(stored.id));
  await ok(api.patchChart(stored.id, { name: "Four bars in F" }));
  await ok(api.deleteChart(stored.id));
  await ok(api.postChartRestore(stored.id));

  const [shape] = (await ok(api.getShapesBuiltIn())).shapes;
  const own = await ok(api.postShapes({ name: "Own", shape: { ...shape!, name: "Own" } }));
  await ok(api.getShapes());
  await ok(api.getShape(own.id));
  await ok(api.patchShape(own.id, { name: "Own shape" }));
  await ok(api.deleteShape(own.id));
  await ok(api.postShapeRestore(own.id));
  await ok(api.getPlacements({ ...BLUES, hand: "right" }));

  const pattern = { viewpoint: "chromatic interval" as const, symbols: [4, 3, 3] };
  const idea = await ok(api.postIdeas({ name: "Up the chord", pattern }));
  await ok(api.getIdeas());
  await ok(api.getIdea(idea.id));
  await ok(api.patchIdea(idea.id, { name: "Up" }));
  await ok(api.deleteIdea(idea.id));
  await ok(api.postIdeaRestore(idea.id));

  const { lenses } = await ok(api.getLensMeasures());
  const lens = await ok(api.postLenses({ name: "Own lens", lens: lenses[0]! }));
  await ok(api.getLenses());
  await ok(api.getLens(lens.id));
  await ok(api.patchLens(lens.id, { name: "Mine" }));
  await ok(api.deleteLens(lens.id));
  await ok(api.postLensRestore(lens.id));
}

async function players(): Promise<string> {
  const { id } = await ok(api.postPlayers({ name: "Runa" }));
  await ok(api.getPlayers());
  await ok(api.getPlayer(id));
  await ok(api.patchPlayer(id, { note: "Tuesdays" }));
  await ok(api.deletePlayer(id));
  await ok(api.postPlayerRestore(id));
  return id;
}

async function takes({ solo, other, sound, chart }: Given, player: string): Promise<string> {
  const account = await ok(api.postAnalyse({ chart, file: file(solo, "solo.mid") }));
  const { take, analysis } = await ok(
    api.postTakes({ chart, playerId: player, date: DAY, tags: "first", file: file(solo, "solo.mid") }),
  );
  if (analysis.notes.length !== account.notes.length) throw new Error("The same file has other notes.");
  const second = await ok(
    api.postTakes({ chart, player: "Odil", date: DAY, file: file(other, "other.mid") }),
  );
  const { total } = await ok(api.getTakes({ sort: "oldest", limit: 10 }));
  if (total !== 2) throw new Error(`${total} takes, where two were sent.`);
  await ok(api.getTake(take.id));
  await ok(api.getTakeAnalysis(take.id));
  const [anchor] = analysis.alignment.anchors;
  await ok(
    api.patchTake(take.id, {
      title: "March",
      anchors: anchor ? [anchor] : [],
      options: { handSize: "small" },
    }),
  );
  await ok(api.getClass());
  await ok(api.getCompare({ a: take.id, b: second.take.id }));
  await ok(api.getCompare({ sides: `${take.id},${second.take.id}` }));
  await ok(api.postSearch({ viewpoint: "chromatic interval", symbols: [4, 3, 3] }));
  const progress = await ok(api.postListen({ file: file(sound, "solo.wav") }, LINES));
  if (progress.length === 0) throw new Error("Nothing was heard.");
  await ok(api.deleteTake(second.take.id));
  await ok(api.postTakeRestore(second.take.id));
  return take.id;
}

async function ofTake({ sound }: Given, take: string): Promise<void> {
  await ok(api.getTakeNotes(take));
  for (const format of ["csv", "ndjson", "parquet"] as const)
    await ok(api.getTakeNotes(take, { format }, LINES));
  await ok(api.getTakeScoreMusicxml(take));
  await ok(api.getTakeSoloMid(take));
  await ok(api.getTakeSource(take));
  await ok(api.putTakeSound(take, { file: file(sound, "solo.wav") }));
  await ok(api.getTakeSound(take));
  await ok(api.deleteTakeSound(take));
  const { exercises } = await ok(api.getTakePractice(take, {}));
  const [exercise] = exercises;
  await ok(api.getTakePracticeScoreMusicxml(take, exercise!.id, {}));
  await ok(api.getTakePracticePlayAlongMid(take, exercise!.id, { tempo: 100 }));
  await ok(api.getTakePageHtml(take));
  await ok(api.getTakeFeedback(take));
  await ok(api.putTakeFeedback(take, { signed: "A. Teacher", askFirst: true }));
  await ok(api.putTakeOwnView(take, { own: "More room." }));
}

async function ofPlayer(player: string, take: string): Promise<void> {
  await ok(api.getPlayerProgress(player));
  await ok(api.getPlayerExportZip(player));
  await ok(api.getPlayerPage(player));
  await ok(
    api.patchPlayerPage(player, { usual: { handSize: "small" }, consent: { date: DAY, by: "Parents" } }),
  );
  await ok(api.putPlayerLens(player, { lens: "guide-tones", since: DAY }));
  await ok(api.deletePlayerLens(player, DAY));
  const { notes } = await ok(api.postPlayerNotes(player, { date: DAY, text: "Goes well." }));
  await ok(api.deletePlayerNote(player, notes[0]!.id));
  const twin = await ok(api.postPlayers({ name: "Runa again" }));
  await ok(api.postPlayerMerge(twin.id, { into: player }));
  await ok(api.getPlayerView(player));
  await ok(api.getPlayerAccess(player));
  if ((await ok(api.getTake(take))).playerId !== player) throw new Error("The take has changed hands.");
}

async function lessons(player: string): Promise<void> {
  const { exercises } = await ok(api.getLesson({ ...BLUES, level: "beginner" }));
  const [exercise] = exercises;
  await ok(api.getLessonScoreMusicxml(exercise!.id, { ...BLUES, level: "beginner" }));
  await ok(api.getLessonPlayAlongMid(exercise!.id, { ...BLUES, level: "beginner", tempo: 100 }));
  await ok(api.getLessonWholeMusicxml({ ...BLUES, level: "beginner" }));
  await ok(api.getLessonWholeMid({ ...BLUES, level: "beginner", tempo: 100 }));
  const handed = await ok(api.postLessons({ ...BLUES, players: [player], handedOn: DAY }));
  const { id } = handed.lessons[0]!;
  await ok(api.getPlayerLessons(player));
  const lesson = await ok(api.getPlayerLesson(player, id, { inKey: "G" }));
  await ok(api.getPlayerLessonScoreMusicxml(player, id, lesson.exercises[0]!.id));
  await ok(api.getPlayerLessonPlayAlongMid(player, id, lesson.exercises[0]!.id));
  await ok(api.getPlayerLessonWholeMusicxml(player, id));
  await ok(api.getPlayerLessonWholeMid(player, id));
  await ok(api.deletePlayerLesson(player, id));
}

async function links(player: string, take: string): Promise<void> {
  await ok(api.postPlayerShares(player, { name: "Parents", days: 7 }));
  const ofPlayers = await ok(api.getPlayerShares(player));
  await ok(api.deletePlayerShare(player, ofPlayers.shares[0]!.id));
  await ok(api.postTakeShares(take, { name: "Parents" }));
  const ofTakes = await ok(api.getTakeShares(take));
  await ok(api.deleteTakeShare(take, ofTakes.shares[0]!.id));
}

async function corpora({ solo, other, chart }: Given): Promise<void> {
  const { id } = await ok(api.postCorpora({ name: "Evening class" }));
  await ok(api.getCorpora());
  await ok(api.getCorpus(id));
  const broken = file(new TextEncoder().encode("no music"), "broken.mid");
  const sent = [file(solo, "a.mid"), file(other, "b.mid"), file(solo, "again.mid"), broken];
  const job = await ok(api.postCorpusTakes(id, { chart, player: "Runa", tags: "first", file: sent }));
  await ok(api.getJobEvents(job.id));
  const { state } = await ok(api.getJob(job.id));
  if (state !== "done") throw new Error(`The events of the job ended while it was ${state}.`);
  const { failures } = await ok(api.getCorpusFailures(id));
  await ok(api.getCorpusFailure(id, failures[0]!.item));
  await ok(api.getCorpusRepeated(id));
  await ok(api.postCorpusFailuresRetry(id));
  await ok(api.deleteJob(job.id));

  await ok(api.getTables());
  for (const format of ["csv", "ndjson", "parquet"] as const) {
    await ok(api.getCorpusTakes(id, { format }, LINES));
    await ok(api.getCorpusNotes(id, { format, player: "Runa" }, LINES));
    await ok(api.getCorpusPhrases(id, { format }, LINES));
    await ok(api.getCorpusMotifs(id, { format }, LINES));
    await ok(api.getCorpusPlacements(id, { format }, LINES));
    await ok(api.getCorpusChoruses(id, { format }, LINES));
  }
  await ok(api.getCorpusSummary(id, { by: "chord" }));
  await ok(api.getCorpusStanding(id));
  await ok(api.postCorpusSearch(id, { viewpoint: "chromatic interval", symbols: [4, 3, 3] }));
  await ok(api.getCorpusVocabulary(id));
  await ok(api.postCorpusCompare(id, { a: { tag: "first" }, b: { player: "Runa" } }));
  await ok(api.getCorpusCitation(id, { tag: "first" }));
  await ok(api.deleteCorpus(id));
  await ok(api.postCorpusRestore(id));
}

async function access(): Promise<void> {
  const { token, id } = await ok(api.postTokens({ name: "A researcher", role: "researcher", scope: [] }));
  await ok(api.getTokens());
  await ok(api.patchToken(id, { mostTakes: 10 }));
  await ok(api.postSession({ token }));
  await ok(api.deleteSession());
  await ok(api.deleteToken(id, { forget: "true" }));
  await ok(api.getAudit({ limit: 5 }));
}

async function deletions(player: string, take: string): Promise<void> {
  await ok(api.deleteTake(take));
  await ok(api.deletePlayer(player));
  const { deleted } = await ok(api.getDeleted());
  if (deleted.length !== 2) throw new Error(`${deleted.length} can be brought back, where two were deleted.`);
  const missing = await api.getTake(take);
  if (missing.status !== 404) throw new Error(`A deleted take answers ${missing.status}.`);
}
