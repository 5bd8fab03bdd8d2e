"""Files of the program held against each other on whom they take for a piano: `python3 refusals.py DATA OUT ONNX...`, on one GPU.

Every instrument of the font that is never trained on (others.py), and the three pianos that never are, play some 12 s of
music by chance, direct and through rooms and phones ("phone" as in mix.py, "poor" as in harder.py) whose seeds no training
had; each file gets the same recordings. With `others` before the files, bands, drums and voices instead. Writes rows [file, kind, name, way, piano's share] to OUT and prints, for
each kind and way, how many the program would refuse and warn of.
"""
import json
import pathlib
import sys

import numpy as np
import torch

import company
import harder
import measure
import mix
import pianistic
import rooms
import singing
import weights
from network import BANDS, Company, Listener

REFUSED, WARNED = 0.35, 0.75  # as in src/listen
PIANOS = ("grand", "upright", "patch grand")
TAKES, TAKES_OF_PIANO = 6, 24
SECONDS = 11
SEED = 707070


def opened(path, device):
    """The listener and its part for whose sound it is, as the file has them."""
    listener, part = Listener(late=weights.has_late(path)).to(device), Company().to(device)
    steady = torch.rand(2, 300, BANDS, device=device)
    weights.restore(listener, path, lambda: steady, 1)
    listener.eval()
    with torch.no_grad():
        weights.restore_company(part, path, lambda: (steady, *listener.around(steady)), 1)
    return listener, part.eval()


def recordings(data, kind, name, seed, surroundings, device):
    """(way, sound) of the takes of one instrument or piano."""
    bank = company.single_bank(f"{data}/{'test' if kind == 'piano' else 'others-held'}.npz", name, device)
    for take in range(TAKES_OF_PIANO if kind == "piano" else TAKES):
        rows, _ = (company.lines if take % 3 == 2 and kind != "piano" else pianistic.stream)(8 * 10**8 + 100 * seed + take)
        if kind != "piano":
            rows = company.folded(rows, *bank.pianos[0][0][[0, -1]])
        notes = [(on, max(damp - on, 0.05), int(p), v) for on, _, damp, p, v in rows.tolist() if on < SECONDS]
        if len(notes) < 4:
            continue
        dry = measure.laid(notes, bank)
        yield "direct", dry
        for way, one in surroundings.items():
            yield way, measure.through(dry, one)


def crowd(data, surroundings, device):
    """(kind, name, way, sound) of bands, drums and voices without a piano."""
    parts = np.load(f"{data}/bands-parts-held.npz")
    players, drums = [parts[k].astype(np.float32) / 127 for k in ("players", "drums")]
    g = torch.Generator().manual_seed(SEED)
    sung = singing.voices(g, device, 12, 20).cpu().numpy()
    said = np.stack([rooms.voice(g, device, 12).cpu().numpy() for _ in range(12)])
    for kind, sounds in (("band", players + drums), ("drums", drums), ("singing", sung), ("talking", said)):
        for i, sound in enumerate(sounds):
            if np.abs(sound).max() > 1e-4:
                yield kind, str(i), "direct", sound
                for way, one in surroundings.items():
                    yield kind, str(i), way, measure.through(sound.astype(np.float32), one)


def kind_of(program):
    if program in company.GUITARS:
        return "guitar"
    return "harp" if program == 46 else "plucked or struck" if program in company.PLUCKED else "other instrument"


def main():
    data, out, *files = sys.argv[1:]
    others, files = "others" in files, [f for f in files if f.endswith(".onnx")]
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.manual_seed(SEED)
    surroundings = {"phone": mix.Surroundings(SEED, device, 60, 6), "poor": harder.Surroundings(SEED + 1, device, 60, 6)}
    hearing, parts = mix.Spectrum(device), {pathlib.Path(f).stem: opened(f, device) for f in files}
    jobs = [("piano", name) for name in PIANOS]
    for name in map(str, np.load(f"{data}/others-held.npz")["names"]):
        jobs.append((kind_of(int(name.split()[-1])), name))
    rows = []
    with torch.no_grad():
        for kind, name, way, sound in crowd(data, surroundings, device) if others else ():
            rows += [(file, kind, name, way, company.heard_shares(*part, hearing, sound, device)[0]) for file, part in parts.items()]
        for seed, (kind, name) in enumerate([] if others else jobs):
            for way, sound in recordings(data, kind, name, seed, surroundings, device):
                rows += [(file, kind, name, way, company.heard_shares(*part, hearing, sound, device)[0]) for file, part in parts.items()]
            print(name, len(rows), file=sys.stderr, flush=True)
    pathlib.Path(out).write_text(json.dumps(rows) + "\n")
    tell(rows)


def tell(rows):
    for kind in dict.fromkeys(r[1] for r in rows):
        for way in dict.fromkeys(r[3] for r in rows):
            for file in dict.fromkeys(r[0] for r in rows):
                v = np.array([r[4] for r in rows if r[0] == file and r[1] == kind and r[3] == way])
                warned = ((v >= REFUSED) & (v < WARNED)).sum()
                print(f"{kind:18}{way:7}{file:12} {len(v)} recordings: refused {(v < REFUSED).sum()}, warned of {warned}; {v.min():.2f} to {v.max():.2f}, middle {np.median(v):.2f}, tenths {np.quantile(v, 0.1):.2f} {np.quantile(v, 0.9):.2f}")


if __name__ == "__main__":
    main()
