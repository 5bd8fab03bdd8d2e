"""Pieces by chance whose harmony holds: what is played together belongs to one chord, and chords follow each other.

In music.py and pianistic.py a tune knows nothing of the chord below it, so that octaves and twelfths of what sounds are
rare. In music as it is written they are the rule: a tune of chord notes over their own bass, basses and tunes doubled,
inner voices on the partials of lower ones. That is what covers soft notes. performed.py plays these pieces.
"""
import numpy as np

MAJOR, MINOR = (0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 8, 11)
# Where a degree goes: of tonal harmony, dominants to the tonic, the second and fourth to the dominant. [practice]
FOLLOWS = {0: (3, 4, 5, 1, 3, 4, 2), 1: (4, 4, 6, 4), 2: (5, 3, 5), 3: (4, 1, 0, 4), 4: (0, 0, 5, 0), 5: (1, 3, 4, 1), 6: (0, 2, 0)}
TEXTURES = ("song", "waltz", "chords", "runs", "voices", "octaves", "three layers", "hymn")
TEXTURE_SHARES = (0.24, 0.12, 0.1, 0.14, 0.12, 0.08, 0.14, 0.06)
MELODY, FIGURE, BASS, INNER = range(4)


class Harmony:
    """A chord: its pitch classes from the root up and the scale around it."""

    def __init__(self, r, key, scale, degree, thick):
        steps = [0, 2, 4] + ([6] if r.random() < thick or (degree == 4 and r.random() < 0.5) else []) + ([8] if r.random() < thick / 3 else [])
        self.tones = [(key + scale[(degree + s) % 7]) % 12 for s in steps]
        self.scale = [(key + s) % 12 for s in scale]
        if r.random() < 0.06:  # the dominant of what follows
            self.tones = [(self.tones[0] + s) % 12 for s in (0, 4, 7, 10)]
            self.scale = sorted({*self.tones, *self.scale} - {(t + 1) % 12 for t in self.tones[1:2]})

    def keys(self, low, high, of="tones"):
        classes = getattr(self, of)
        return [p for p in range(low, high) if p % 12 in classes]

    def bass(self, near, inverted=False):
        tone = self.tones[1 if inverted else 0]
        return min((p for p in range(24, 60) if p % 12 == tone), key=lambda p: abs(p - near))


def progression(r, bars):
    """A chord for each half bar; four bars come back, and the key changes at times."""
    key, scale, thick, degree = int(r.integers(12)), MAJOR if r.random() < 0.6 else MINOR, r.choice([0.05, 0.3, 0.9], p=[0.5, 0.3, 0.2]), 0
    twice, out = r.uniform(0, 0.6), []
    for bar in range(bars):
        if bar % 8 == 0 and bar and r.random() < 0.4:
            key, scale = (key + int(r.choice([5, 7, 9, 3]))) % 12, scale if r.random() < 0.6 else MINOR if scale is MAJOR else MAJOR
        if bar % 8 >= 4 and bar % 8 < 7 and r.random() < 0.5:
            out += out[2 * (bar - 4) : 2 * (bar - 4) + 2]
            continue
        first = Harmony(r, key, scale, degree, thick)
        if r.random() < twice:
            degree = int(r.choice(FOLLOWS[degree]))
            out += [first, Harmony(r, key, scale, degree, thick)]
        else:
            out += [first, first]
        degree = 0 if bar % 8 == 6 and r.random() < 0.6 else int(r.choice(FOLLOWS[degree]))
    return out


def rhythm(r, beats, kind):
    """Lengths that fill so many beats."""
    if kind == "even":
        each = r.choice([0.25, 1 / 3, 0.5, 1])
        return [each] * int(round(beats / each))
    out = []
    while sum(out) < beats - 1e-6:
        long = r.choice([0.25, 0.5, 0.75, 1, 1.5, 2], p=[0.12, 0.34, 0.08, 0.3, 0.08, 0.08])
        out.append(min(long, beats - sum(out)))
    return out


def tune(r, at, beats, chord, place, compass, kind):
    """[beat, beats, key] over one chord: its own notes on beats, the scale between; and the last key."""
    rows = []
    for long in rhythm(r, beats, kind):
        strong = abs(at - round(at)) < 0.01
        ladder = chord.keys(*compass, "tones" if strong and r.random() < 0.8 else "scale") or [place]
        reach = np.array(ladder) - place
        wish = r.choice([-7, -4, -2, -1, 1, 2, 4, 7], p=[0.04, 0.1, 0.2, 0.16, 0.16, 0.2, 0.1, 0.04])
        place = int(ladder[int(np.argmin(np.abs(reach - wish)))])
        if r.random() < 0.95:
            rows.append((at, long, place))
        at += long
    return rows, place


def doubled(r, rows, chord, how):
    """A tune with an octave, thirds, sixths or whole chords below it."""
    out = []
    for at, long, key in rows:
        out.append((at, long, key))
        below = chord.keys(max(21, key - 12), key)
        if how == "octaves":
            out.append((at, long, key - 12))
        elif how == "pairs" and len(below) > 1:
            out.append((at, long, below[-1] if key - below[-1] > 2 else below[-2]))
        elif how == "full":
            out += [(at, long, p) for p in below[-3:] if key - p > 2] + [(at, long, key - 12)]
    return out


def figure(r, at, beats, chord, kind, low, step):
    """What the lower hand does over one chord."""
    bass = chord.bass(low, r.random() < 0.2)
    tones = chord.keys(bass + 1, bass + 26)
    near, wide = tones[:3], tones[1:6]
    if len(near) < 3:
        return [(at, beats, bass)]
    count = int(round(beats / step))
    orders = {
        "alberti": [bass, near[2], near[0], near[2]], "wide": [bass, *wide, *wide[-2:0:-1]], "rocking": [bass, near[1], near[2], near[1]],
        "tremolo": [bass, bass + 12], "repeated": [None],
    }
    if kind == "repeated":
        return [(at + i * step, step, p) for i in range(count) for p in near]
    order = orders[kind]
    return [(at + i * step, step, order[i % len(order)]) for i in range(count)]


class Writer:
    """Writes a piece section by section; rows are [beat, beats, key, part]."""

    def __init__(self, r):
        self.r, self.rows = r, []
        self.bar = int(r.choice([4, 3, 2], p=[0.6, 0.3, 0.1]))
        self.top, self.low = int(r.integers(66, 90)), int(r.integers(31, 54))

    def put(self, rows, part):
        self.rows += [(at, long, key, part) for at, long, key in rows if 21 <= key <= 108]

    def section(self, first, chords):
        """Four bars or eight in one texture."""
        r, half = self.r, self.bar / 2
        write = getattr(self, "_" + TEXTURES[r.choice(len(TEXTURES), p=np.array(TEXTURE_SHARES))].replace(" ", "_"))
        state = {
            "kind": r.choice(["even", "free"], p=[0.25, 0.75]), "how": r.choice(["alone", "octaves", "pairs", "full"], p=[0.5, 0.18, 0.17, 0.15]),
            "figure": r.choice(["alberti", "wide", "rocking", "tremolo", "repeated"], p=[0.22, 0.34, 0.18, 0.08, 0.18]),
            "step": float(r.choice([0.25, 1 / 3, 0.5, 1], p=[0.35, 0.2, 0.3, 0.15])), "octave bass": r.random() < 0.4, "place": self.top,
            "compass": (self.top - int(r.integers(7, 15)), min(106, self.top + int(r.integers(7, 18)))), "low": self.low + int(r.integers(-5, 6)),
            "direction": 1, "upper runs": r.random() < 0.7,
        }
        i = 0
        while i < len(chords):
            same = i % 2 == 0 and i + 1 < len(chords) and chords[i + 1] is chords[i]
            beats = self.bar if same else half
            write(first + i * half, beats, chords[i], state)
            i += 2 if same else 1

    def _tune(self, at, beats, chord, s):
        rows, s["place"] = tune(self.r, at, beats, chord, s["place"], s["compass"], s["kind"])
        self.put(doubled(self.r, rows, chord, s["how"]), MELODY)

    def _bass(self, at, beats, chord, s, long=None):
        key = chord.bass(s["low"])
        self.put([(at, long or beats, key)] + ([(at, long or beats, key - 12)] if s["octave bass"] and key > 33 else []), BASS)
        return key

    def _song(self, at, beats, chord, s):
        self._tune(at, beats, chord, s)
        self.put(figure(self.r, at, beats, chord, s["figure"], s["low"], min(s["step"], 0.5)), FIGURE)
        if s["octave bass"]:
            self._bass(at, beats, chord, s)

    def _waltz(self, at, beats, chord, s):
        self._tune(at, beats, chord, s)
        key = self._bass(at, beats, chord, s, 1.0)
        tones = [p for p in chord.keys(48, 68) if p > key + 2][: int(self.r.integers(2, 5))]
        self.put([(at + b, 0.7, p) for b in np.arange(1, beats) for p in tones], FIGURE)

    def _chords(self, at, beats, chord, s):
        every = float(self.r.choice([0.5, 1, 2]))
        upper = chord.keys(s["compass"][0] - 5, s["compass"][0] + 12)[-5:]
        for b in np.arange(0, beats - 1e-6, every):
            self.put([(at + b, every * 0.95, p) for p in upper], FIGURE)
            if b == 0 or self.r.random() < 0.5:
                self._bass(at + b, every, chord, s)

    def _runs(self, at, beats, chord, s):
        step, tones = s["step"] if s["step"] < 0.5 else 0.25, self.r.random() < 0.5
        compass = (s["compass"][0] - 8, s["compass"][1] + 5) if s["upper runs"] else (34, 62)
        ladder, rows, place = chord.keys(*compass, "tones" if tones else "scale"), [], s["place"]
        for i in range(int(round(beats / step))):
            here = int(np.argmin(np.abs(np.array(ladder) - place))) + s["direction"]
            if not 0 <= here < len(ladder) or self.r.random() < 0.06:
                s["direction"] *= -1
                here = int(np.clip(here + 2 * s["direction"], 0, len(ladder) - 1))
            place = ladder[here]
            rows.append((at + i * step, step, place))
        s["place"] = place
        self.put(doubled(self.r, rows, chord, s["how"] if s["how"] in ("octaves", "pairs") else "alone"), MELODY)
        if s["upper runs"]:
            self._bass(at, beats, chord, s)
            self.put([(at, beats * 0.8, p) for p in chord.keys(48, 60)[: int(self.r.integers(0, 4))]], FIGURE)
        else:
            self.put([(at, beats, p) for p in chord.keys(64, 84)[-int(self.r.integers(1, 5)) :]], FIGURE)

    def _voices(self, at, beats, chord, s):
        """Each voice on its own; strong beats agree with the chord."""
        places = s.setdefault("places", [40 + 11 * v + int(self.r.integers(-3, 4)) for v in range(int(self.r.integers(2, 5)))])
        for v, place in enumerate(places):
            rows, places[v] = tune(self.r, at, beats, chord, place, (34 + 11 * v, 52 + 11 * v), "even" if self.r.random() < 0.3 else "free")
            self.put(rows, v)

    def _octaves(self, at, beats, chord, s):
        rows, s["place"] = tune(self.r, at, beats, chord, s["place"], s["compass"], s["kind"])
        apart = s.setdefault("apart", int(self.r.choice([12, 12, 24, 19])))
        self.put(rows, MELODY)
        self.put([(a, long, key - apart) for a, long, key in rows], FIGURE)
        if self.r.random() < 0.3:
            self.put([(a, long, key - 12 - apart) for a, long, key in rows], BASS)

    def _three_layers(self, at, beats, chord, s):
        """A tune, a bass that is held, and between them an even figure of chord notes that may not cover them."""
        self._tune(at, beats, chord, s)
        key = self._bass(at, beats, chord, s)
        between = [p for p in chord.keys(key + 7, max(key + 20, s["compass"][0] - 1))]
        if between:
            step, shift = min(s["step"], 0.5), int(self.r.integers(0, 3))
            self.put([(at + i * step, step * (1 if self.r.random() < 0.6 else 2), between[(i + shift) % len(between)]) for i in range(int(round(beats / step)))], INNER)

    def _hymn(self, at, beats, chord, s):
        for b in np.arange(0, beats - 1e-6, 1.0):
            rows, s["place"] = tune(self.r, at + b, 1.0, chord, s["place"], s["compass"], "even" if self.r.random() < 0.1 else "free")
            self.put(rows, MELODY)
            inner = [p for p in chord.keys(48, 72) if p < s["place"] - 1][-2:]
            self.put([(at + b, 1.0, p) for p in inner], INNER)
            self._bass(at + b, 1.0, chord, s)


def piece(seed, bars=20):
    """Notes [n, 4] (beat, beats, key, part) and the beats on which bars begin, as performed.py plays them."""
    r = np.random.default_rng([29, seed])
    writer, chords, bar = Writer(r), progression(r, bars), 0
    while bar < bars:
        size = int(r.choice([4, 8, 2], p=[0.5, 0.3, 0.2]))
        writer.section(bar * writer.bar, chords[2 * bar : 2 * (bar + size)])
        bar += size
    kept = {}
    for at, long, key, part in writer.rows:  # a key is struck once at a time; the part that was written first has it
        kept.setdefault((round(at, 4), key), (round(at, 4), long, key, part))
    return np.array(sorted(kept.values()), np.float64), np.arange(bars) * float(writer.bar)
