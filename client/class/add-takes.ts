/** From dropped files to analysed takes: joins the panel with the service. */
import type { FormRow } from "../../server/contract/charts.ts";
import { soundQueue } from "../listen/sound-queue.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { type HandDraft, handSlot } from "../parts/hand-choice.ts";
import { playerField } from "../parts/usual-chart.ts";
import { sendTake, shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { keptDraft } from "../shell/kept-draft.ts";
import { keepFields } from "../shell/kept-fields.ts";
import type { Shell } from "../shell/page.ts";
import { addDrawing } from "./add-drawing.ts";
import {
  type AddState,
  addHeard,
  chooseFiles,
  confirmable,
  endSending,
  NOTHING_CHOSEN,
  nextFile,
  onlyFile,
  outcomeWords,
  refused,
  sentSoFar,
  soundNotKept,
  startSending,
  stored,
  takeToOpen,
} from "./add-model.ts";

export interface AddTakes {
  readonly element: HTMLElement;
  add(files: readonly File[]): void;
}

/** The panel; `done` is called after files were stored. */
export function addTakes(
  forms: readonly FormRow[],
  players: readonly { readonly id: string; readonly name: string }[],
  shell: Shell,
  done: () => void,
): AddTakes {
  const chart = chartFields(forms, {
    changed: () => change((now) => confirmable(now, chart.toConfirm())),
  });
  const handDraft = keptDraft<HandDraft>("add-takes hand");
  const hand = handSlot(shapes.list, handDraft);
  const listening = soundQueue((document) => changeFiles((now) => addHeard(now, [document])));
  const parts = {
    listening: listening.element,
    chart: chart.element,
    hand: hand.element,
    player: playerField("known-players", players, chart),
    names: h("datalist", { id: "known-players" }, ...players.map(({ name }) => h("option", { value: name }))),
  };
  const form = h("form", { class: "add", novalidate: true });
  const { state, change } = drawnFrom(form, NOTHING_CHOSEN, (now) =>
    addDrawing(now, parts, { add, change: changeFiles }),
  );
  const kept = keepFields(form, "add-takes");
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void sendAll();
  });

  function add(files: readonly File[]): void {
    changeFiles((now) => chooseFiles(now, listening.takeOver(files)));
  }

  /** A change of the files: what a chart is proposed for follows. */
  function changeFiles(next: (now: AddState) => AddState): void {
    change(next);
    chart.hear(onlyFile(state()));
  }

  async function sendAll(): Promise<void> {
    change(startSending);
    const sent = { ...chart.read(), ...fieldsOf(form, state()), options: JSON.stringify(hand.read()) };
    for (let file = nextFile(state()); file !== null; file = nextFile(state())) await send(file, sent);
    const words = outcomeWords(state());
    const take = takeToOpen(state());
    changeFiles(endSending);
    if (words === null) return;
    if (state().refusals.length === 0) {
      kept.clear();
      handDraft.write(null);
    }
    done();
    if (take !== null) shell.go(`/takes/${take}`);
    else shell.notify(words);
  }

  async function send(file: File, sent: Readonly<Record<string, string>>): Promise<void> {
    const gone = (share: number) => change((now) => sentSoFar(now, file, share));
    gone(0);
    try {
      const { take } = await sendTake(sent, file, gone);
      change((now) => stored(now, file, take.id));
      await listening
        .keep(file, take.id)
        .catch((error: unknown) => change((now) => soundNotKept(now, file, error)));
    } catch (error) {
      change((now) => refused(now, file, error));
    }
  }

  return { element: form, add };
}

/** The fields as they stand when they are sent; a title is that of one take. */
function fieldsOf(form: HTMLFormElement, state: AddState): Record<string, string> {
  const written = new FormData(form);
  return {
    player: textIn(written, "player"),
    title: onlyFile(state) === null ? "" : textIn(written, "title"),
    date: textIn(written, "date"),
  };
}

const textIn = (form: FormData, name: string): string => String(form.get(name) ?? "").trim();
