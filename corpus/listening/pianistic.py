"""Music as it is written for the piano, by chance: a melody over soft figures with the pedal, and several held voices.

The textures of music.py keep all keys in play; these keep what people's playing is full of: a hand that stays far below
the other, pedal that changes with the harmony, loudness that swells, time that gives way.
"""
import numpy as np

import music

SHARE = 0.5  # of streams; the others are those of music.py (.4 in run 5)
FIGURES = ("broken", "rocking", "after the bass", "struck", "tremolo")


def swell(r, seconds):
    """Loudness over time, added to velocities: rises and falls over a few bars."""
    depth, period, phase, drift = r.uniform(0, 24), r.uniform(3, 14), r.uniform(0, 6.3), r.normal(0, 0.6)
    return lambda t: depth * np.sin(2 * np.pi * t / period + phase) + drift * (t - seconds / 2)


def bent(r):
    """Time that gives way: what stands at t is played at the value."""
    depth, period = (r.uniform(0, 0.12), r.uniform(2, 8)) if r.random() < 0.7 else (0.0, 1.0)
    return lambda t: t + depth * np.sin(2 * np.pi * t / period)


def figure(r, kind, at, beats, beat, keys, level):
    """The accompanying hand under one chord: rows from `at` on."""
    rows, parts = [], int(r.choice([2, 3, 4, 6]))
    step, touch = beat / parts, r.uniform(0.5, 2.5)
    upper = keys[1:]
    if kind == "after the bass":
        for b in range(beats):
            struck = [keys[0]] if b == 0 else upper[:4]
            rows += [(at + b * beat + abs(r.normal(0, 0.008)), at + (b + r.uniform(0.3, 0.95)) * beat, k, level + (8 if b == 0 else 0)) for k in struck]
    elif kind == "struck":
        each = beat / int(r.choice([1, 2, 3]))
        for i in range(int(beats * beat / each)):
            rows += [(at + i * each + abs(r.normal(0, 0.007)), at + (i + r.uniform(0.4, 0.95)) * each, k, level) for k in upper[:4]]
    else:
        if kind == "rocking":
            order = [keys[0], upper[-1], upper[0], upper[-1]]
        elif kind == "tremolo":
            step, order = r.uniform(0.06, 0.11), [keys[0], upper[-1]]
        else:
            order = list(keys) + (list(keys[-2:0:-1]) if r.random() < 0.6 else [])
        for i in range(int(beats * beat / step)):
            on = at + i * step
            rows.append((on, on + step * touch, order[i % len(order)], level + (6 if i == 0 else 0)))
    return rows


def tune(r, at, beats, beat, ladder, start, level):
    """The singing hand over one chord: rows, and the place on the ladder where it ends."""
    rows, end, place = [], at + beats * beat, start
    thick, doubled = r.choice([0, 0, 0, 3, 5, 7, 12], p=[0.3, 0.15, 0.15, 0.1, 0.1, 0.05, 0.15]), r.uniform(0, 25)
    while at < end - 0.02:
        long = min(end - at, beat * r.choice([0.25, 1 / 3, 0.5, 1, 1.5, 2], p=[0.2, 0.1, 0.25, 0.25, 0.1, 0.1]))
        place = int(np.clip(place + r.choice([-4, -2, -1, 0, 1, 2, 4], p=[0.06, 0.14, 0.27, 0.06, 0.27, 0.14, 0.06]), 0, len(ladder) - 1))
        key, loud = ladder[place], level + r.normal(0, 6)
        if r.random() < 0.12:
            loud -= r.uniform(0, 30)
        if r.random() < 0.05 and long > 0.3:  # a trill
            gap = r.uniform(0.06, 0.1)
            rows += [(at + i * gap, at + (i + 0.95) * gap, key + (i % 2) * int(r.choice([1, 2])), loud - 8) for i in range(int(long / gap))]
        elif r.random() < 0.92:
            if r.random() < 0.06:  # a short note before
                rows.append((at - r.uniform(0.05, 0.09), at + 0.02, key + int(r.choice([-2, -1, 1, 2])), loud - 12))
            rows.append((at, at + long * r.uniform(0.75, 1.08), key, loud))
            if thick:
                rows.append((at + abs(r.normal(0, 0.006)), at + long * r.uniform(0.7, 1.0), key - int(thick), loud - doubled))
        at += long
    return rows, place


def sung(r, seconds):
    """A melody over a soft figure and long basses; what is soft is covered by what rings. Rows and pedal."""
    beat, beats = r.uniform(0.28, 0.85), int(r.choice([2, 3, 4]))
    scale, root = music.SCALES[r.integers(7)], int(r.integers(12))
    ladder = [p for p in range(int(r.integers(55, 68)), int(r.integers(82, 103))) if (p - root) % 12 in scale]
    level, below = r.uniform(45, 100), r.uniform(5, 45)
    kind, octave = FIGURES[r.choice(len(FIGURES), p=[0.38, 0.17, 0.2, 0.17, 0.08])], r.random() < 0.35
    louder, time = swell(r, seconds), bent(r)
    rows, pedal, at, place = [], [], r.uniform(0, 0.5), len(ladder) // 2
    pedalled, late = r.random() < 0.85, r.uniform(0.02, 0.25)
    while at < seconds:
        low = int(r.integers(29, 53))
        chord = music.CHORDS[r.integers(len(music.CHORDS))]
        wide = 12 if r.random() < 0.5 else 0
        keys = [low] + sorted(low + wide + s for s in chord if low + wide + s > low) + ([low + wide + 12] if r.random() < 0.5 else [])
        rows += figure(r, kind, at, beats, beat, keys, level - below)
        if octave and low >= 33:
            rows.append((at, at + beats * beat * r.uniform(0.5, 1), low - 12, level - below + r.uniform(0, 25)))
        played, place = tune(r, at, beats, beat, ladder, place, level)
        rows += played
        if pedalled:
            pedal.append((at + late, at + beats * beat + r.uniform(-0.06, 0.04)))
        at += beats * beat
    rows = [(time(on), max(time(on) + 0.03, time(up)), p, v + louder(on) + r.normal(0, 4)) for on, up, p, v in rows if on >= 0]
    return rows, [(time(a), time(b)) for a, b in pedal if b > a + 0.1]


def voices(r, seconds):
    """Two to four voices, each held until its next note, as in an invention or a hymn. Rows and pedal."""
    beat, count = r.uniform(0.2, 0.7), int(r.integers(2, 5))
    scale, root = music.SCALES[r.integers(7)], int(r.integers(12))
    ladder = [p for p in range(36, 92) if (p - root) % 12 in scale]
    louder, time, rows = swell(r, seconds), bent(r), []
    same = r.random() < 0.3  # a hymn: all voices move together
    for voice in range(count):
        at, level, touch = 0.2, r.uniform(45, 90), r.uniform(0.7, 1.02)
        place = int((voice + 0.5) / count * len(ladder))
        while at < seconds:
            long = beat * (1 if same else r.choice([0.5, 1, 1, 2, 4]))
            place = int(np.clip(place + r.choice([-3, -2, -1, 0, 1, 2, 3]), 0, len(ladder) - 1))
            if r.random() < 0.93:
                on = at + abs(r.normal(0, 0.008))
                rows.append((time(on), time(on + long * touch), ladder[place], level + louder(at) + r.normal(0, 5)))
            at += long
    return rows, []


def stream(seed, seconds=24.0):
    """One stream by chance as music.stream makes it: rows [n, 5] and pedal [m, 2]."""
    r = np.random.default_rng([17, seed])
    if r.random() >= SHARE:
        return music.stream(seed, seconds)
    rows, pedal = (sung if r.random() < 0.8 else voices)(r, seconds)
    return music.sound_of(rows, pedal), np.array(pedal, np.float32).reshape(-1, 2)
