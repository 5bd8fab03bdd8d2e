"""Bands by chance, rendered and packed: `python3 bands.py OUT`. They play softly behind the piano in training.

OUT/bands.npz holds rows of SECONDS of mono sound in eight bits (`codes`), each with its highest value at 127: drums,
bass, and one or two of strings, guitars, winds and pads, in a random key and tempo, by the sound fonts of pianos.py. A
band is nothing that a note may be heard in.
"""
import pathlib
import subprocess
import sys
import tempfile

import numpy as np
import scipy.io.wavfile
import scipy.signal

import pianos

SECONDS = 8
BANDS = 36
SEED = 31
# General MIDI programs that have no piano in them.
BASSES, OTHERS = range(32, 39), [*range(24, 30), *range(40, 46), *range(48, 52), *range(56, 75), *range(88, 94)]
KICK, SNARE, CLOSED, RIDE = 36, 38, 42, 51


def band(r):
    """Events (tick at 960 a second, bytes) of one band."""
    beat, root = r.uniform(0.25, 0.8), int(r.integers(12))
    events = [(0, bytes([0xC0, int(r.choice(BASSES))]))]
    parts = int(r.integers(1, 3))
    events += [(0, bytes([0xC1 + i, int(r.choice(OTHERS))])) for i in range(parts)]

    def note(channel, on, length, pitch, velocity):
        pitch, velocity = int(np.clip(pitch, 0, 127)), int(np.clip(velocity, 1, 127))
        events.append((round(on * 960), bytes([0x90 | channel, pitch, velocity])))
        events.append((round((on + length) * 960), bytes([0x80 | channel, pitch, 0])))

    drums, swing, at = r.random() < 0.75, r.uniform(0.5, 0.68), 0.0
    chord = root
    for i in range(int((SECONDS + 1) / beat)):
        at = i * beat
        if i % 4 == 0:
            chord = root + int(r.choice([0, 2, 5, 7, 9]))
        if drums:
            note(9, at, 0.1, RIDE if r.random() < 0.5 else CLOSED, r.normal(80, 15))
            note(9, at + swing * beat, 0.1, RIDE if r.random() < 0.5 else CLOSED, r.normal(60, 15))
            if i % 2 == 0 or r.random() < 0.2:
                note(9, at, 0.1, KICK, r.normal(90, 12))
            if i % 2 == 1:
                note(9, at, 0.1, SNARE, r.normal(85, 15))
        note(0, at, beat * 0.9, 36 + (chord + int(r.choice([0, 3, 5, 7, 10]))) % 12, r.normal(85, 12))
        for part in range(parts):
            if part == 0 and i % 2 == 0:
                for step in (0, 4, 7):
                    note(1, at, beat * 1.9, 54 + (chord + step) % 12, r.normal(70, 10))
            elif r.random() < 0.6:
                note(1 + part, at, beat * r.uniform(0.3, 1), 66 + (chord + int(r.choice([0, 2, 4, 7, 9]))) % 12, r.normal(80, 12))
    return sorted(events, key=lambda e: e[0])


def play(events, font):
    """Mono sound at pianos.RATE, SECONDS long, highest value 1."""
    mono = sound(events, font)
    return mono / max(1e-6, np.abs(mono).max())


def sound(events, font):
    """Mono sound at pianos.RATE, SECONDS long."""
    track, last = b"", 0
    for tick, data in events:
        track += pianos.variable_length(tick - last) + data
        last = tick
    track += b"\0\xff\x2f\0"
    header = b"MThd" + (6).to_bytes(4, "big") + b"\0\0\0\1" + (480).to_bytes(2, "big")
    with tempfile.TemporaryDirectory() as folder:
        midi, wav = f"{folder}/a.mid", f"{folder}/a.wav"
        pathlib.Path(midi).write_bytes(header + b"MTrk" + len(track).to_bytes(4, "big") + track)
        subprocess.run(["fluidsynth", "-ni", "-q", "-g", "0.5", "-r", "48000", "-F", wav, str(font), midi], check=True, capture_output=True)
        _, whole = scipy.io.wavfile.read(wav)
    mono = scipy.signal.resample_poly(whole.astype(np.float32).mean(1), 1, 3)[: SECONDS * pianos.RATE]
    return np.pad(mono, (0, SECONDS * pianos.RATE - len(mono)))


if __name__ == "__main__":
    r = np.random.default_rng(SEED)
    fonts = [pianos.FLUID, pianos.TIM, pianos.GENERAL]
    rows = [play(band(r), fonts[i % len(fonts)]) for i in range(BANDS)]
    codes = np.round(np.stack(rows) * 127).astype(np.int8)
    np.savez_compressed(pathlib.Path(sys.argv[1], "bands.npz"), codes=codes)
    print(codes.shape)
