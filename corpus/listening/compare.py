"""Holds networks against each other on people's playing: `python3 compare.py DATA MIDI_FOLDER ONNX...`, on one GPU.

The first SECONDS of each file of MIDI_FOLDER (with pedal and all loudnesses) and of each demo take are played by the three
pianos that are never trained on, direct and through rooms and phones whose seeds no training had ("phone" as in mix.py,
"hard" worn as in worn.py and through harder.py); each network gets the same sounds. Prints F of onsets at 50 ms at several thresholds, and for the best one precision, recall and lateness.
"""
import pathlib
import sys

import numpy as np
import torch

import decode
import harder
import measure
import mix
import weights
import worn
from network import Listener

SECONDS = 45.0
SEED = 515151
THRESHOLDS = (0.25, 0.35, 0.45, 0.55)


@torch.no_grad()
def said(listener, spectra):
    """Onsets of a long sound, in pieces of 6 s with 1 s on each side, as the program hears it."""
    out = []
    for start in range(0, spectra.shape[1], 600):
        low = max(0, start - 100)
        keys, _ = listener(spectra[:, low : start + 700])
        out.append(torch.sigmoid(keys[:, 0, start - low : start - low + 600].float()))
    return torch.cat(out, 1)[0].cpu().numpy()


def cut(notes, pedals):
    kept = [n for n in notes if n[0] < SECONDS]
    return [(on, min(d, SECONDS - on + 1), p, v) for on, d, p, v in kept], [p for p in pedals if p[0] < SECONDS]


def opened(path, device):
    listener = Listener().to(device)
    steady = torch.rand(2, 300, 294, device=device)
    weights.restore(listener, path, lambda: steady, 1)
    return listener.eval()


def main():
    data, folder, *networks = sys.argv[1:]
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    listeners = {path: opened(path, device) for path in networks}
    torch.manual_seed(SEED)
    hearing = mix.Spectrum(device)
    surroundings = mix.Surroundings(SEED, device, count=60, voices=4)
    hard = harder.Surroundings(SEED + 1, device, count=60, voices=4)
    pieces = [("people", p) for p in sorted(pathlib.Path(folder).glob("*.mid"))]
    pieces += [("demo", p) for p in sorted(pathlib.Path(__file__).parents[1].glob("takes/*.mid"))]
    results, late = {}, {}
    for piano in ("grand", "upright", "patch grand"):
        bank = mix.Bank(device)
        bank.add_file(f"{data}/test.npz", only=(piano,))
        worn.add_grains(bank, SEED)
        bank.close()
        for number, (kind, path) in enumerate(pieces):
            notes, pedals = cut(*measure.read_midi(path))
            true = [(on, p, v) for on, _, p, v in notes]
            sound = measure.laid(notes, bank, pedals)
            for way in ("direct", "phone", "phone", "hard", "hard"):
                heard = sound / np.abs(sound).max() * 0.5
                if way == "phone":
                    heard = measure.through(sound, surroundings)
                elif way == "hard":
                    heard = measure.through(measure.laid(notes, bank, pedals, SEED + number), hard)
                spectra = hearing(torch.from_numpy(heard.astype(np.float32)).to(device)[None])
                for name, listener in listeners.items():
                    onset = said(listener, spectra)
                    for threshold in THRESHOLDS:
                        found = decode.notes_from(onset, threshold)
                        results.setdefault((kind, piano, way, name, threshold), []).append((found, true))
                    late.setdefault(name, []).extend(found[i][0] - true[j][0] for i, j in decode.matched(found, true))
    for (kind, piano, way, name), scores in grouped(results).items():
        best = max(scores, key=lambda t: scores[t][2])
        row = " ".join(f"{scores[t][2]:.4f}" for t in THRESHOLDS)
        print(f"{kind:7}{piano:12}{way:7} {row}  best {best}: P {scores[best][0]:.4f} R {scores[best][1]:.4f}  {name}")
    for name, errors in late.items():
        print(f"late by {1e3 * np.mean(errors):.2f} ms, sd {1e3 * np.std(errors):.2f} ms  {name}")


def grouped(results):
    out = {}
    for (*key, threshold), pairs in results.items():
        out.setdefault(tuple(key), {})[threshold] = decode.score(pairs)
    return dict(sorted(out.items()))


if __name__ == "__main__":
    main()
