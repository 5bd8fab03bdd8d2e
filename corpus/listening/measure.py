"""Figures of a network on demo takes played by the test's pianos: `python3 measure.py ONNX DATA OUT [TAKES...]`.

The grand is rendered by fluidsynth from the takes' own MIDI files; the upright is laid from its recorded notes (DATA is
where pianos.py wrote). Each take is heard direct and through three simulated rooms and phones whose seeds are none of the
training's. Prints F at 50 ms and writes OUT (JSON): scores by piano, surroundings, loudness, register and density, the
error of onsets, and how often a peak of each height was really a note.
"""
import json
import pathlib
import sys

import numpy as np
import onnxruntime
import torch

import decode
import mix
import music
import pianos
import rooms
import worn

SEED = 424242
HEIGHTS = np.array([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.93, 0.96, 1.01])


def read_midi(path):
    """Notes (onset, seconds, pitch, velocity) of a Standard MIDI File, and where the pedal is down: (from, to)."""
    data = pathlib.Path(path).read_bytes()
    division, at = int.from_bytes(data[12:14], "big"), 14
    events = []
    while at < len(data):
        size = int.from_bytes(data[at + 4 : at + 8], "big")
        events += track_events(data[at + 8 : at + 8 + size])
        at += 8 + size
    events.sort(key=lambda e: (e[0], e[1] != "tempo", e[1] != "off"))
    seconds, tick, tempo, down, notes = 0.0, 0, 500000, {}, []
    pedals, since = [], None
    for when, kind, *rest in events:
        seconds += (when - tick) * tempo / 1e6 / division
        tick = when
        if kind == "tempo":
            tempo = rest[0]
        elif kind == "pedal":
            if rest[0] >= 64 and since is None:
                since = seconds
            elif rest[0] < 64 and since is not None:
                pedals.append((since, seconds))
                since = None
        elif kind == "on":
            down.setdefault(rest[0], []).append((seconds, rest[1]))
        elif down.get(rest[0]):
            on, velocity = down[rest[0]].pop(0)
            notes.append((on, max(0.03, seconds - on), rest[0], velocity))
    return sorted(notes), pedals + ([(since, seconds)] if since is not None else [])


def track_events(data):
    at, tick, status, out = 0, 0, 0, []

    def number():
        nonlocal at
        value = 0
        while True:
            value = value << 7 | data[at] & 127
            at += 1
            if data[at - 1] < 128:
                return value

    while at < len(data):
        tick += number()
        if data[at] & 128:
            status = data[at]
            at += 1
        if status in (0xFF, 0xF0, 0xF7):
            kind = data[at] if status == 0xFF else 0
            at += status == 0xFF
            size = number()
            if kind == 0x51:
                out.append((tick, "tempo", int.from_bytes(data[at : at + size], "big")))
            at += size
            continue
        first, second = data[at], data[at + 1] if at + 1 < len(data) else 0
        at += 1 if status & 0xF0 in (0xC0, 0xD0) else 2
        if status & 0xF0 == 0x90 and second > 0:
            out.append((tick, "on", first, second))
        elif status & 0xF0 in (0x80, 0x90):
            out.append((tick, "off", first))
        elif status & 0xF0 == 0xB0 and first == 64:
            out.append((tick, "pedal", second))
    return out


def laid(notes, bank, pedals=(), wear=None, restrikes=0.0):
    """The sound that the first piano of a bank makes of a whole take, five seconds at a time as in training.

    `wear` is a seed: the piano is worn as worn.py wears it, the same throughout. `restrikes` as there, also without wear.
    """
    rows = music.sound_of([(on, on + d, p, v) for on, d, p, v in notes], pedals)
    total = np.zeros(int((rows[-1, 2] + 2) * mix.RATE), np.float32)
    whole = mix.LENGTH / mix.RATE - mix.LEAD / mix.RATE
    for start in np.arange(0, len(total) / mix.RATE, whole):
        chosen = rows[(rows[:, 0] >= start) & (rows[:, 0] < start + whole)]
        if not len(chosen):
            continue
        pitch, velocity = chosen[:, 3].astype(int), chosen[:, 4]
        row = bank.pick(0, pitch, velocity, np.zeros(len(pitch), int), np.random.default_rng(0))
        zero, hop = np.zeros(len(pitch)), mix.LEAD / mix.RATE
        # Laid from the lead on, so that a note struck late in the window has room to sound.
        on = (chosen[:, 0] - start - hop) * mix.RATE
        damp = (chosen[:, 2] - start - hop) * mix.RATE
        ratio = 2 ** ((pitch - row[:, 2]) / 12)
        data = np.stack([zero, on, damp, pitch, velocity, row[:, 0], row[:, 1], ratio, (velocity / row[:, 3]) ** 1.7, 0.035 * 2 ** ((60 - pitch) / 24)], 1)
        if wear is not None:
            pedal = np.array([(a - start - hop, b - start - hop) for a, b in pedals]).reshape(-1, 2)
            data = np.concatenate([data, *worn.wear(np.random.default_rng(wear), bank, 0, data, chosen[:, 1] - start - hop, pedal, restrikes)])
        elif restrikes:
            data = np.concatenate([data, *worn.restruck(np.random.default_rng(len(chosen)), data, chosen[:, 1] - start - hop, restrikes)])
        sound = mix.lay(bank, data, 1)[0].cpu().numpy()
        begin = int(start * mix.RATE)
        part = sound[: len(total) - begin]
        total[begin : begin + len(part)] += part
    return total


def through(sound, surroundings):
    """A whole take through one room and phone: answer and colour for all of it, noise and treatment as in training."""
    device_sound = torch.from_numpy(sound)[None].to(surroundings.device)
    size = 2 ** int(np.ceil(np.log2(len(sound) + rooms.LONG)))
    impulse = torch.fft.irfft(surroundings.pick(surroundings.rooms, 1), surroundings.size)[:, : rooms.LONG]
    response = surroundings.pick(surroundings.responses, 1)[:, None]
    bins = torch.nn.functional.interpolate(response, size // 2 + 1, mode="linear")[:, 0]
    wet = torch.fft.irfft(torch.fft.rfft(device_sound, size) * torch.fft.rfft(impulse, size) * bins, size)[:, : len(sound)]
    wet = wet / wet.abs().amax()
    piece = 80000
    wet = torch.nn.functional.pad(wet, (0, -wet.shape[1] % piece))
    state = surroundings.generator.get_state()
    parts = []
    for part in wet.split(piece, 1):
        surroundings.generator.set_state(state)  # one phone for the whole take
        parts.append(surroundings.squeezed(surroundings.phone(surroundings.with_others(part, 1.0))))
    heard = torch.cat(parts, 1)[0].cpu().numpy()
    return heard / np.abs(heard).max() * 0.5


def hear(session, spectra):
    """All outputs of a long sound, in pieces of 10 s with 1 s around them."""
    said = []
    for start in range(0, len(spectra), 1000):
        low = max(0, start - 100)
        out = session.run(["onset"], {"spectrum": spectra[None, low : start + 1100]})[0][0]
        said.append(out[start - low : start - low + 1000])
    return np.concatenate(said)


def tally(found, true, table, errors, groups, condition):
    pairs = decode.matched(found, true)
    hit = {i for i, _ in pairs}
    for i, (_, _, height) in enumerate(found):
        k = int(np.searchsorted(HEIGHTS, height, side="right")) - 1
        table[k] += (1, i in hit, height)
    errors += [found[i][0] - true[j][0] for i, j in pairs]
    got = {j for _, j in pairs}
    for j, (on, pitch, velocity) in enumerate(true):
        near = sum(abs(n[0] - on) < 0.05 for n in true)
        for name in (
            "low" if pitch < 48 else "middle" if pitch < 72 else "high",
            "soft" if velocity < 50 else "loud" if velocity > 85 else "medium",
            "alone" if near == 1 else "with 1 or 2" if near < 4 else "with 3 or more",
        ):
            count = groups.setdefault(f"{condition}: {name}", [0, 0])
            count[0] += 1
            count[1] += j in got


def main():
    network, data, out, *takes = sys.argv[1:]
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    torch.set_num_threads(1)
    session = onnxruntime.InferenceSession(network, options)
    bank = mix.Bank("cpu")
    bank.add_file(f"{data}/test.npz", only=("upright",))
    bank.close()
    torch.manual_seed(SEED)
    surroundings = mix.Surroundings(SEED, "cpu", count=20, voices=2)
    hearing = mix.Spectrum("cpu")
    results, groups, errors = {}, {}, []
    table = np.zeros((len(HEIGHTS) - 1, 3))
    for path in takes:
        notes, _ = read_midi(path)
        true = [(on, p, v) for on, _, p, v in notes]
        sounds = {"grand": pianos.render(pianos.MUSE, path), "upright": laid(notes, bank)}
        for piano, sound in sounds.items():
            for kind in ("direct", "phone 1", "phone 2", "phone 3"):
                heard = sound / np.abs(sound).max() * 0.5 if kind == "direct" else through(sound, surroundings)
                onset = hear(session, hearing(torch.from_numpy(heard.astype(np.float32))[None])[0].numpy())
                name = f"{piano} {kind.split()[0]}"
                for threshold in (0.25, 0.35, 0.45, 0.55):
                    results.setdefault(f"{name} {threshold}", []).append((decode.notes_from(onset, threshold), true))
                tally(decode.notes_from(onset, 0.1), true, table, errors, groups, name)
        print(pathlib.Path(path).stem, {k: "%.3f %.3f %.3f" % decode.score(v[-3 if "phone" in k else -1 :]) for k, v in results.items() if "0.35" in k}, flush=True)
    report = {
        "scores": {k: [round(x, 4) for x in decode.score(v)] for k, v in results.items()},
        "recall": {k: [n, round(g / n, 4)] for k, (n, g) in sorted(groups.items())},
        "onset error, ms": {"mean": round(float(np.mean(errors)) * 1e3, 2), "sd": round(float(np.std(errors)) * 1e3, 2)},
        "heights": [[round(h / max(1, n), 3), int(n), round(right / max(1, n), 4)] for n, right, h in table],
    }
    pathlib.Path(out).write_text(json.dumps(report, indent=1) + "\n")
    print(json.dumps(report["scores"], indent=1), report["onset error, ms"], report["heights"])


if __name__ == "__main__":
    main()
