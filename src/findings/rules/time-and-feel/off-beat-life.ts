import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { offBeats } from "./on-and-off-the-beat.ts";

export const offBeatLife: Rule = rule({
  id: "off-beat-life",
  heading: "time and feel",
  kind: "works",
  measure: "share of onsets on weak places that are held over the next stronger place",
  unit: "share",
  threshold: 0.12,
  reason: "About one note in eight: at least one a bar in a line of eighths [practice].",
  least: { notes: 24, full: 0.2, shown: 12, held: 0.75, sample: 4 },
  importance: 0.55,
  chance: { null: "moved in time", count: ({ rhythm }) => rhythm.syncopation, than: "more" },
  find({ account, solo }, threshold, least) {
    const { syncopation } = account.rhythm;
    if (syncopation === null || syncopation < threshold) return null;
    const held = offBeats(solo).filter((note) => (note.beats ?? 0) >= least.held);
    if (held.length < least.sample) return null;
    return {
      observed: syncopation,
      strength: beyond(syncopation, threshold, least.full),
      evidence: ids(held.slice(0, least.shown)),
      words: { places: placesInWords(held, account.alignment.choruses) },
    };
  },
  wording: [
    "You play across the beat: notes struck on an off-beat and held over it give the line its lift (listen to {places}).",
    "Off-beats held over the next beat keep the line dancing; {places} show it well.",
  ],
  practice: null,
});
