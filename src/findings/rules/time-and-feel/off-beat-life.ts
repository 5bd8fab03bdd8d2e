import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { offBeats } from "./on-and-off-the-beat.ts";

export const offBeatLife: Rule = {
  id: "off-beat-life",
  heading: "time and feel",
  kind: "works",
  measure: "share of onsets on weak places that are held over the next stronger place",
  threshold: 0.12,
  reason: "About one note in eight: at least one a bar in a line of eighths [practice].",
  least: { notes: 24 },
  importance: 0.55,
  chance: "moved in time",
  find({ account, solo }, threshold) {
    const { syncopation } = account.rhythm;
    if (syncopation === null || syncopation < threshold) return null;
    const held = offBeats(solo).filter((note) => (note.beats ?? 0) >= 0.75);
    return {
      observed: syncopation,
      strength: beyond(syncopation, threshold, 0.2),
      evidence: ids(held.slice(0, 12)),
      words: { places: placesInWords(held, account.alignment.choruses) || "many bars" },
    };
  },
  wording: [
    "You play across the beat: notes struck on an off-beat and held over it give the line its lift (listen to {places}).",
    "Off-beats held over the next beat keep the line dancing; {places} show it well.",
  ],
  practice: null,
};
