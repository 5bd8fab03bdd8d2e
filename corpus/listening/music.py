"""Music to be played by the pianos: streams of key presses by chance processes, and given notes played again.

A stream is an array of rows (onset, key up, damper down, pitch, velocity) in seconds and MIDI numbers, with the times at
which the pedal goes down and up. What is hard to hear stands on purpose: octaves and twelfths struck together,
repetitions down to 60 ms, trills, clusters, low notes under chords, thin notes over ringing ones.
"""
import numpy as np

LOW, HIGH = 21, 108
SCALES = [
    (0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 9, 10), (0, 2, 4, 6, 7, 9, 11), (0, 2, 4, 5, 7, 9, 10), (0, 1, 3, 4, 6, 7, 9, 10),
    (0, 2, 4, 6, 8, 10), (0, 3, 5, 6, 7, 10), (0, 2, 3, 5, 7, 8, 11), (0, 2, 4, 7, 9), tuple(range(12)),
]
CHORDS = [
    (0, 4, 7), (0, 3, 7), (0, 4, 7, 11), (0, 3, 7, 10), (0, 4, 7, 10), (0, 3, 6, 10), (0, 3, 6, 9), (0, 4, 8), (0, 5, 7, 10),
    (0, 4, 10, 14), (0, 3, 10, 14), (0, 4, 10, 13), (0, 4, 10, 15), (0, 4, 10, 14, 21), (0, 3, 10, 14, 17), (0, 5, 10, 15, 19),
]


def steps_of(r, seconds, gap):
    """Onsets about `gap` apart in a random swing with small errors."""
    swing = r.uniform(1, 2.2) if r.random() < 0.5 else 1.0
    error = r.uniform(0, 0.018)
    at, out, even = r.uniform(0, 0.5), [], True
    while at < seconds:
        out.append(max(0, at + r.normal(0, error)))
        at += gap * 2 * (swing if even else 1) / (1 + swing)
        even = not even
    return np.maximum.accumulate(np.array(out))


def line(r, seconds):
    """One hand: scales, chord tones, leaps, rests, sometimes held, sometimes short."""
    onsets = steps_of(r, seconds, r.choice([0.08, 0.11, 0.14, 0.18, 0.25, 0.4], p=[0.1, 0.15, 0.25, 0.25, 0.15, 0.1]))
    scale, root = SCALES[r.integers(len(SCALES))], r.integers(12)
    ladder = [p for p in range(LOW, HIGH + 1) if (p - root) % 12 in scale]
    centre, width = r.uniform(52, 88), r.uniform(5, 14)
    at, direction, touch, level = int(np.argmin(np.abs(np.array(ladder) - centre))), 1, r.uniform(0.4, 1.15), r.uniform(40, 100)
    rows, rest = [], 0
    for i, on in enumerate(onsets[:-1]):
        if rest > 0:
            rest -= 1
            continue
        if r.random() < 0.06:
            rest = int(r.integers(1, 6))
        if r.random() < 0.25 or abs(ladder[at] - centre) > width:
            direction = -np.sign(ladder[at] - centre) if abs(ladder[at] - centre) > width else -direction
        at = int(np.clip(at + direction * r.choice([0, 1, 2, 3, 5], p=[0.05, 0.6, 0.2, 0.1, 0.05]), 0, len(ladder) - 1))
        pitch = ladder[at] if r.random() > 0.1 else ladder[at] + int(r.choice([-1, 1]))
        rows.append((on, on + max(0.03, (onsets[i + 1] - on) * touch * r.uniform(0.7, 1.15)), pitch, level + r.normal(0, 11)))
    return rows


def chords(r, seconds, low=40, high=66):
    """The other hand: chords struck, held, rolled, in beats or off them."""
    onsets = steps_of(r, seconds, r.choice([0.25, 0.45, 0.7, 1.2, 2.2]))
    held, level, roll = r.uniform(0.1, 1.02), r.uniform(30, 90), r.choice([0.004, 0.012, 0.06], p=[0.5, 0.4, 0.1])
    rows, root, kind = [], r.integers(low, high), CHORDS[r.integers(len(CHORDS))]
    for on, after in zip(onsets[:-1], onsets[1:]):
        if r.random() < 0.2:
            continue
        if r.random() < 0.5:
            root, kind = r.integers(low, high), CHORDS[r.integers(len(CHORDS))]
        for i, step in enumerate(kind):
            start = on + (i * roll if roll > 0.03 else abs(r.normal(0, roll)))
            rows.append((start, max(start + 0.04, on + (after - on) * held), root + step, level + r.normal(0, 8)))
    return rows


def bass(r, seconds):
    """Single low notes or octaves: walking, or long under everything."""
    onsets = steps_of(r, seconds, r.choice([0.3, 0.45, 0.6, 1.5]))
    pitch, level, octave = r.integers(28, 48), r.uniform(45, 105), r.random() < 0.3
    rows = []
    for on, after in zip(onsets[:-1], onsets[1:]):
        pitch = int(np.clip(pitch + r.choice([-7, -5, -2, -1, 1, 2, 5, 7]), 21, 52))
        up = on + (after - on) * r.uniform(0.5, 1)
        rows.append((on, up, pitch, level + r.normal(0, 8)))
        if octave:
            rows.append((on + abs(r.normal(0, 0.008)), up, pitch + 12, level + r.normal(0, 10)))
    return rows


def octaves(r, seconds):
    """A line doubled an octave, a twelfth or two octaves away, together or broken, the upper one often softer."""
    rows = []
    step, broken, less = int(r.choice([12, 12, 12, 19, 24])), r.random() < 0.25, r.uniform(-10, 40)
    for on, up, pitch, velocity in line(r, seconds):
        rows.append((on, up, pitch - step // 2, velocity))
        if r.random() < 0.8:
            late = r.uniform(0.05, 0.15) if broken else abs(r.normal(0, 0.008))
            rows.append((on + late, up + late, pitch - step // 2 + step, velocity - less))
    return rows


def repetitions(r, seconds):
    """One key again and again, two in turn (trill, tremolo), or chords repeated."""
    rows, at, level = [], r.uniform(0, 0.4), r.uniform(45, 105)
    while at < seconds:
        gap, count = r.uniform(0.06, 0.3), int(r.integers(2, 14))
        keys = [int(r.integers(30, 100))]
        if r.random() < 0.4:
            keys.append(keys[0] + int(r.choice([1, 2, 3, 4, 7, 12])))
        together = r.random() < 0.3
        for i in range(count):
            for key in keys if together else [keys[i % len(keys)]]:
                share = r.uniform(0.4, 0.95)
                rows.append((at, at + gap * share * (1 if together else len(keys)), key, level + r.normal(0, 10)))
            at += gap * r.uniform(0.9, 1.1)
        at += r.uniform(0, 0.8)
    return rows


def cloud(r, seconds):
    """Anything at any time: keeps every key and every pair of keys in play."""
    count = int(seconds * r.choice([1.5, 4, 8, 14]))
    centre, width = r.uniform(30, 98), r.choice([6, 14, 30])
    rows = []
    for on in np.sort(r.uniform(0, seconds, count)):
        pitch = int(np.clip(r.normal(centre, width), LOW, HIGH))
        rows.append((on, on + r.exponential(0.6) + 0.05, pitch, r.uniform(15, 120)))
        if r.random() < 0.15:
            rows.append((on + abs(r.normal(0, 0.01)), on + r.exponential(0.6) + 0.05, pitch + int(r.choice([12, 19, 24, 7, 1])), r.uniform(15, 110)))
    return rows


def clusters(r, seconds):
    """Neighbouring keys together, and glissandi."""
    rows, at = [], r.uniform(0, 0.5)
    while at < seconds:
        start, size, up = int(r.integers(25, 98)), int(r.integers(3, 9)), at + r.uniform(0.1, 1.2)
        gap = r.choice([0.002, 0.01, 0.03, 0.06])
        for i in range(size):
            rows.append((at + i * gap, max(up, at + i * gap + 0.05), start + i * int(r.choice([1, 1, 2])), r.uniform(40, 110)))
        at += r.uniform(0.2, 1.4)
    return rows


def broken(r, seconds):
    """Arpeggios and accompaniment figures over a wide range."""
    onsets = steps_of(r, seconds, r.choice([0.09, 0.14, 0.2, 0.3]))
    rows, level, hold = [], r.uniform(35, 90), r.uniform(0.6, 4)
    kind, root, i = CHORDS[r.integers(len(CHORDS))], r.integers(28, 60), 0
    order = r.permutation(len(kind) * 2)
    for on, after in zip(onsets[:-1], onsets[1:]):
        if r.random() < 0.06:
            kind, root = CHORDS[r.integers(len(CHORDS))], r.integers(28, 60)
            order = r.permutation(len(kind) * 2) if r.random() < 0.5 else np.arange(len(kind) * 2)
        j = int(order[i % len(order)])
        rows.append((on, on + (after - on) * hold, root + kind[j % len(kind)] + 12 * (j // len(kind)), level + r.normal(0, 8)))
        i += 1
    return rows


def both_hands(r, seconds):
    other = [chords, bass, broken, chords][r.integers(4)]
    return line(r, seconds) + other(r, seconds)


KINDS = [(both_hands, 0.42), (line, 0.1), (chords, 0.08), (octaves, 0.11), (repetitions, 0.13), (cloud, 0.08), (clusters, 0.04), (broken, 0.08)]


def pedal_of(r, seconds):
    """Pairs of down and up; most students play without, some change it with the harmony, some hold it."""
    if r.random() < 0.55:
        return []
    out, at = [], r.uniform(0, 1)
    length, gap = r.choice([0.5, 1.2, 2.5, 5]), r.choice([0.06, 0.15, 0.5])
    while at < seconds:
        down = length * r.uniform(0.5, 1.5)
        out.append((at, at + down))
        at += down + gap * r.uniform(0.7, 1.5)
    return out


def sound_of(rows, pedal):
    """Adds when the damper falls: at key up, when the pedal comes up after it, or when the key is struck again."""
    rows = sorted((on, max(up, on + 0.03), int(p), v) for on, up, p, v in rows if LOW <= p <= HIGH)
    out, open_rows = [], {}
    for on, up, pitch, velocity in rows:
        before = open_rows.get(pitch)
        if before is not None:
            if on - before[0] < 0.045:
                continue
            before[1], before[2] = min(before[1], on - 0.002), min(before[2], on)
        damp = next((b for a, b in pedal if a <= up < b), up)
        row = [on, up, max(up, damp), pitch, float(np.clip(velocity, 8, 126))]
        open_rows[pitch] = row
        out.append(row)
    return np.array(out, np.float32).reshape(-1, 5)


def stream(seed, seconds=24.0):
    """One stream by chance: rows [n, 5] and pedal [m, 2]."""
    r = np.random.default_rng(seed)
    kinds, shares = zip(*KINDS)
    kind = kinds[r.choice(len(kinds), p=np.array(shares) / sum(shares))]
    rows = kind(r, seconds)
    if r.random() < 0.12:
        rows = rows + cloud(r, seconds)[:: int(r.integers(2, 8))]
    pedal = pedal_of(r, seconds)
    return sound_of(rows, pedal), np.array(pedal, np.float32).reshape(-1, 2)


def played(seed, notes):
    """Given notes (onset, seconds, pitch, velocity), for single lines with a left hand by chance, as a stream."""
    r = np.random.default_rng(seed)
    start, seconds = notes[0][0] - 0.3, notes[-1][0] - notes[0][0] + 2
    rows = [(on - start, on - start + d, p, v if v > 0 else r.normal(75, 12)) for on, d, p, v in notes]
    if len({round(n[0], 2) for n in notes}) > 0.97 * len(notes) and r.random() < 0.7:
        rows += [chords, bass, chords][r.integers(3)](r, seconds)
    pedal = pedal_of(r, seconds) if r.random() < 0.5 else []
    return sound_of(rows, pedal), np.array(pedal, np.float32).reshape(-1, 2)
