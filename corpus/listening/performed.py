"""Pieces by chance (composed.py) as someone might play them: voices of their own loudness, swells, time that gives way, pedal by the harmony."""
import numpy as np

import composed
import music
import pianistic

SECONDS = 24.0


def loudness(r, notes, start):
    """A velocity for each note: one voice leads, the others stay below it by their own amount."""
    level, below = r.uniform(40, 100), r.uniform(0, 42)
    if r.random() < 0.6:  # the highest note that begins or is held leads
        leads = np.array([not np.any((notes[:, 0] <= on) & (notes[:, 0] + notes[:, 1] > on + 1e-3) & (notes[:, 2] > pitch)) for on, _, pitch, _ in notes])
    elif r.random() < 0.5:
        leads = notes[:, 3] == r.choice(np.unique(notes[:, 3]))
    else:
        leads = notes[:, 2] < r.uniform(50, 64)
    parts = r.normal(0, 5, int(notes[:, 3].max()) + 1)
    louder, accent = pianistic.swell(r, SECONDS), r.uniform(0, 10)
    on_beat = np.abs(notes[:, 0] - np.round(notes[:, 0])) < 0.01
    return level - below * ~leads + parts[notes[:, 3].astype(int)] + louder(start) + accent * on_beat + r.normal(0, 4, len(notes))


def pedals(r, notes, bars, seconds_of, up_to):
    """Down a little after each change of the lowest note at a bar or half bar, up at the next."""
    if r.random() < 0.25:
        return []
    every = bars if r.random() < 0.5 else np.sort(np.concatenate([bars, bars[:-1] + np.diff(bars) / 2]))
    changes = every[(every >= notes[0, 0] - 1e-6) & (every < notes[-1, 0])]
    if r.random() < 0.4:  # with each new bass
        low = notes[notes[:, 2] < np.quantile(notes[:, 2], 0.35)]
        gaps = np.concatenate([[9], np.diff(low[:, 0])]) if len(low) else np.array([])
        changes = low[gaps > 0.45, 0] if len(low) else changes
    late, out = r.uniform(0.02, 0.2), []
    ends = [*changes[1:], up_to]
    for a, b in zip(changes, ends):
        down, up = seconds_of(a) + late, min(seconds_of(b) + r.uniform(-0.05, 0.06), seconds_of(a) + 8)
        if up > down + 0.1 and r.random() < 0.95:
            out.append((float(down), float(up)))
    return out


def stream(seed):
    """One stream of a part of a piece of its own, as music.stream makes it."""
    r = np.random.default_rng([23, seed])
    notes, bars = composed.piece(seed)
    # A tempo by which the hands have 3 to 14 notes a second.
    dense = len(notes) / max(1.0, notes[-1, 0])
    pace = 60 / np.clip(60 * r.uniform(3, 14) / dense, 40, 220)
    first = r.uniform(0, max(0.01, notes[-1, 0] - SECONDS / pace))
    notes = notes[(notes[:, 0] >= first) & (notes[:, 0] < first + SECONDS / pace)]
    if len(notes) < 8:
        return np.zeros((0, 5), np.float32), np.zeros((0, 2), np.float32)
    bent, origin = pianistic.bent(r), notes[0, 0]

    def seconds_of(beat):
        return np.maximum(0, bent((beat - origin) * pace + 0.3))

    touch = r.uniform(0.45, 1.02, int(notes[:, 3].max()) + 1)[notes[:, 3].astype(int)]
    on = seconds_of(notes[:, 0])
    velocity = loudness(r, notes, on)
    up = seconds_of(notes[:, 0] + notes[:, 1] * touch * r.uniform(0.9, 1.05, len(notes)))
    spread = r.uniform(0.02, 0.07) if r.random() < 0.3 else 0.0
    later = np.zeros(len(notes))
    for beat in np.unique(notes[:, 0]):
        chord = np.flatnonzero(notes[:, 0] == beat)
        if spread and len(chord) > 2 and r.random() < 0.4:
            later[chord[np.argsort(notes[chord, 2])]] = np.arange(len(chord)) * spread
    # The melody comes a little before what lies below it. [practice]
    lead = r.uniform(0, 0.03) if r.random() < 0.5 else 0.0
    on = on + later + r.normal(0, r.uniform(0.003, 0.012), len(notes)) - lead * (velocity > np.quantile(velocity, 0.75))
    octave = 12 * int(r.choice([-1, 0, 1], p=[0.06, 0.86, 0.08]))
    rows = [(max(0.0, float(a)), float(b), int(p) + octave, float(v)) for a, b, p, v in zip(on, up, notes[:, 2], velocity)]
    pedal = pedals(r, notes, bars, seconds_of, notes[-1, 0] + 1)
    return music.sound_of(rows, pedal), np.array(pedal, np.float32).reshape(-1, 2)
