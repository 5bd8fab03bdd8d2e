"""Holds networks against each other on people's playing: `python3 compare.py DATA MIDI_FOLDER ONNX...`, on one GPU.

The first SECONDS of each file of MIDI_FOLDER (with pedal and all loudnesses) and of each demo take are played by the three
pianos that are never trained on (with `choosing` before the networks, by four others, so that what is chosen is not chosen by the test), direct and through rooms and phones whose seeds no training had ("phone" as in mix.py,
"hard" worn as in worn.py and through harder.py, "rings" with the long notes of DATA/test-long.npz and strings that ring along as in
resonance.py, through a room and phone for "far"); each network gets the same sounds. Prints F of onsets at 50 ms at several thresholds, and for the best one precision, recall and lateness; with `peaks=FILE`
also writes how often a peak of each height was a note, direct and by phone (calibration.json). A smaller measure:
`each=3` takes every third piece, `seconds=15` less of each, `rooms=20` fewer rooms to draw from, `once` one phone a piece, `until=900` ends it after so many seconds.
"""
import itertools
import json
import pathlib
import sys
import time

import numpy as np
import onnxruntime
import torch

import decode
import harder
import measure
import mix
import resonance
import weights
import worn
from network import Listener

SECONDS = 45.0
ROOMS = 60
SEED = 515151
THRESHOLDS = (0.25, 0.35, 0.45, 0.55)
TEST = ("grand", "upright", "patch grand")
# Pianos to choose by: two that were trained on, and two invented ones by seeds that no training had, one of them old.
CHOOSING = ("layered grand", "general grand", "invented 880001", "old 880002")
CHOOSING_SEED = 616161
WAYS = ("direct", "phone", "phone", "hard", "hard", "rings", "far", "far")
WAYS_ONCE = ("direct", "phone", "hard", "rings", "far")
HEIGHTS = np.array([0.08, 0.12, 0.16, 0.2, *np.arange(0.25, 0.96, 0.05), 1.001])


@torch.no_grad()
def said(listener, spectra):
    """Onsets of a long sound, in pieces of 6 s with 1 s on each side, as the program hears it."""
    out = []
    for start in range(0, spectra.shape[1], 600):
        low = max(0, start - 100)
        keys, _ = listener(spectra[:, low : start + 700])
        out.append(torch.sigmoid(keys[:, 0, start - low : start - low + 600].float()))
    return torch.cat(out, 1)[0].cpu().numpy()


def cut(notes, pedals, seconds):
    kept = [n for n in notes if n[0] < seconds]
    return [(on, min(d, seconds - on + 1), p, v) for on, d, p, v in kept], [p for p in pedals if p[0] < seconds]


class Run:
    """A network by onnxruntime, which is twice as fast where there is no GPU."""

    def __init__(self, path):
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = 1
        self.session = onnxruntime.InferenceSession(path, options)

    def __call__(self, spectra):
        onset = torch.from_numpy(self.session.run(["onset"], {"spectrum": spectra.numpy()})[0])
        return torch.logit(onset, 1e-7)[:, None], None


def opened(path, device):
    if device.type == "cpu":
        return Run(path)
    listener = Listener(late=weights.has_late(path)).to(device)
    steady = torch.rand(2, 300, 294, device=device)
    weights.restore(listener, path, lambda: steady, 1)
    return listener.eval()


def opened_piano(data, name, seed, device, held="test"):
    bank = mix.Bank(device)
    kind, _, number = name.partition(" ")
    if kind in ("invented", "old"):
        bank.add_invented([int(number)], 1.0 if kind == "old" else 0.0)
    else:
        bank.add_file(f"{data}/{held if name in TEST else 'train'}.npz", only=(name,))
    worn.add_grains(bank, seed)
    bank.close()
    return bank


def rung(notes, pedals, bank, seed):
    """A take by a piano whose strings ring on when struck again and ring along while they are free."""
    sound = measure.laid(notes, bank, pedals, restrikes=1.0)
    return resonance.whole(sound, pedals, torch.Generator().manual_seed(seed), bank.device)


def count_peaks(table, found, true):
    """Adds peaks, true ones and heights by HEIGHTS to a table [bins, 3]."""
    hit = {i for i, _ in decode.matched(found, true)}
    for i, (_, _, height) in enumerate(found):
        table[int(np.searchsorted(HEIGHTS, height, side="right")) - 1] += (1, i in hit, height)


def main():
    data, folder, *rest = sys.argv[1:]
    networks, choosing = [one for one in rest if one.endswith(".onnx")], "choosing" in rest
    set_to = dict(one.split("=", 1) for one in rest if "=" in one)
    peaks_file, each, seconds = set_to.get("peaks"), int(set_to.get("each", 1)), float(set_to.get("seconds", SECONDS))
    began, until = time.time(), float(set_to.get("until", 1e9))
    rooms, twice = int(set_to.get("rooms", ROOMS)), "once" not in rest
    pianos = set_to["pianos"].split(",") if "pianos" in set_to else CHOOSING if choosing else TEST
    seed = CHOOSING_SEED if choosing else SEED
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    listeners = {path: opened(path, device) for path in networks}
    torch.manual_seed(seed)
    hearing = mix.Spectrum(device)
    surroundings = mix.Surroundings(seed, device, count=rooms, voices=4)
    hard = harder.Surroundings(seed + 1, device, count=rooms, voices=4)
    people = [("people", p) for p in sorted(pathlib.Path(folder).glob("*.mid"))[::each]]
    demo = [("demo", p) for p in sorted(pathlib.Path(__file__).parents[1].glob("takes/*.mid"))[::each]]
    # A demo take after every third piece of the others, so that a measure that is cut short has some of both.
    pieces = [one for i, first in enumerate(people) for one in [first, *demo[i // 3 : i // 3 + (i % 3 == 2)]]] + demo[len(people) // 3 :]
    banks = {piano: opened_piano(data, piano, seed, device) for piano in pianos}
    long = {piano: opened_piano(data, piano, seed, device, "test-long") for piano in pianos}
    ways = set_to["ways"].split(",") if "ways" in set_to else WAYS if twice else WAYS_ONCE
    results, late, peaks = {}, {}, {}
    for (number, (kind, path)), piano in itertools.product(enumerate(pieces), pianos):
        if time.time() - began > until:
            break
        notes, pedals = cut(*measure.read_midi(path), seconds)
        true = [(on, p, v) for on, _, p, v in notes]
        sound = measure.laid(notes, banks[piano], pedals)
        ringing = rung(notes, pedals, long[piano], seed + number) if {"rings", "far"} & set(ways) else None
        for way in ways:
            heard = sound / np.abs(sound).max() * 0.5
            if way == "phone":
                heard = measure.through(sound, surroundings)
            elif way == "hard":
                heard = measure.through(measure.laid(notes, banks[piano], pedals, seed + number), hard)
            elif way == "rings":
                heard = ringing / np.abs(ringing).max() * 0.5
            elif way == "far":
                heard = measure.through(ringing, surroundings)
            spectra = hearing(torch.from_numpy(heard.astype(np.float32)).to(device)[None])
            for name, listener in listeners.items():
                onset = said(listener, spectra)
                for threshold in THRESHOLDS:
                    found = decode.notes_from(onset, threshold)
                    results.setdefault((kind, piano, way, name, threshold), []).append((found, true))
                if peaks_file is not None and way in ("direct", "phone"):
                    table = peaks.setdefault(name, {}).setdefault(kind, np.zeros((len(HEIGHTS) - 1, 3)))
                    count_peaks(table, decode.notes_from(onset, HEIGHTS[0]), true)
                late.setdefault(name, []).extend(found[i][0] - true[j][0] for i, j in decode.matched(found, true))
        print(f"{time.time() - began:.0f} s", piano, path.stem, file=sys.stderr)
    for (kind, piano, way, name), scores in grouped(results).items():
        best = max(scores, key=lambda t: scores[t][2])
        row = " ".join(f"{scores[t][2]:.4f}" for t in THRESHOLDS)
        print(f"{kind:7}{piano:12}{way:7} {row}  best {best}: P {scores[best][0]:.4f} R {scores[best][1]:.4f}  {name}")
    if peaks_file is not None:
        told = {name: {kind: table.tolist() for kind, table in tables.items()} for name, tables in peaks.items()}
        pathlib.Path(peaks_file).write_text(json.dumps(told))
    for name, errors in late.items():
        print(f"late by {1e3 * np.mean(errors):.2f} ms, sd {1e3 * np.std(errors):.2f} ms  {name}")


def grouped(results):
    out = {}
    for (*key, threshold), pairs in results.items():
        out.setdefault(tuple(key), {})[threshold] = decode.score(pairs)
    return dict(sorted(out.items()))


if __name__ == "__main__":
    main()
