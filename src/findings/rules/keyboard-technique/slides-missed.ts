import { countInWords, placesInWords } from "../../../words/index.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

export const slidesMissed: Rule = rule({
  id: "slides-missed",
  heading: "keyboard technique",
  kind: "notice",
  measure: "slides that the keys allow in the places of the hand that were used, none of them played",
  unit: "times",
  threshold: 12,
  reason: "As many chances as a blues has bars: often enough to be worth a try [practice].",
  least: { notes: 32, full: 8 },
  importance: 0.5,
  chance: "fact",
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const { taken, possible, missed } = facts.account.handFit.slides;
    if (taken.length > 0 || possible < threshold || missed.length === 0) return null;
    const notes = missed.map((id) => facts.byId.get(id)).filter((note) => note !== undefined);
    return {
      observed: possible,
      strength: beyond(possible, threshold, least.full),
      evidence: [...missed],
      words: {
        times: countInWords(possible),
        places: placesInWords(notes.slice(0, 1), facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "An idea: the hand stands {times} times where the fourth finger could slide from a black key to the white one above it. Try it in {places}: let the finger fall off the black key and listen to the note melt.",
  ],
  practice: {
    kind: "slides",
    title: "Off the black key",
    text: "Short black, long white, one finger: on every place where the keys allow it.",
  },
});
