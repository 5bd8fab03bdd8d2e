"""Notes from what the network says, and how many of them are right: for figures only, the program has its own."""
import numpy as np


def notes_from(onset, threshold=0.4, apart=5):
    """Peaks of [frames, 88] at or above the threshold: rows (seconds, MIDI number, height), by onset."""
    before = np.vstack([onset[:1] * 0, onset[:-1]])
    after = np.vstack([onset[1:], onset[:1] * 0])
    frames, keys = np.nonzero((onset >= threshold) & (onset >= before) & (onset > after))
    rows, last = [], {}
    for t, key in zip(frames, keys):
        near = np.arange(max(0, t - 2), min(len(onset), t + 3))
        weight = onset[near, key]
        at = float((near * weight).sum() / weight.sum()) / 100
        height = float(onset[t, key])
        held = last.get(key)
        if held is not None and t - held[0] < apart:
            if height > rows[held[1]][2]:
                rows[held[1]] = (at, key + 21, height)
                last[key] = (t, held[1])
            continue
        last[key] = (t, len(rows))
        rows.append((at, key + 21, height))
    return sorted(rows)


def matched(found, true, within=0.05):
    """Pairs of indices (found, true) of the same key with onsets at most `within` seconds apart, each used once."""
    pairs = []
    for pitch in {p for _, p, *_ in true}:
        mine = [i for i, n in enumerate(found) if n[1] == pitch]
        theirs = [j for j, n in enumerate(true) if n[1] == pitch]
        near = sorted((abs(found[i][0] - true[j][0]), i, j) for i in mine for j in theirs if abs(found[i][0] - true[j][0]) <= within)
        used_i, used_j = set(), set()
        for _, i, j in near:
            if i not in used_i and j not in used_j:
                used_i.add(i)
                used_j.add(j)
                pairs.append((i, j))
    return pairs


def score(results):
    """Precision, recall and F of (found, true) pairs together."""
    right = sum(len(matched(f, t)) for f, t in results)
    found, true = sum(len(f) for f, _ in results), sum(len(t) for _, t in results)
    precision, recall = right / max(1, found), right / max(1, true)
    return precision, recall, 2 * precision * recall / max(1e-9, precision + recall)
