"""Notes of published scores in beats, to be performed by performed.py: `python3 scores.py OUT FOLDER...`.

Each FOLDER is searched for MusicXML and Humdrum files, which the package music21 reads. OUT gets one score a line: `name`,
what the file says of its `rights`, `notes` [beat, beats, MIDI number, part] and the beats on which `bars` begin. A score
whose rights speak of non-commercial use is left out.
"""
import json
import pathlib
import re
import sys
import warnings

import music21

KINDS = (".xml", ".musicxml", ".mxl", ".krn")
RESTRICTED = re.compile(r"non.?commercial|all rights reserved|[^a-z]nc[^a-z]", re.I)


def rights_of(score):
    texts = [score.metadata.copyright] if score.metadata is not None else []
    texts += [line.text for line in score.recurse().getElementsByClass("Comment") if hasattr(line, "text")]
    return " ".join(str(t) for t in texts if t)


def notes_of(score):
    """[beat, beats, MIDI number, part] with ties joined."""
    rows = []
    for number, part in enumerate(score.parts):
        for element in part.stripTies().flatten().notes:
            if element.duration.isGrace or not hasattr(element, "pitches"):
                continue
            beats = float(element.quarterLength)
            rows += [[round(float(element.offset), 4), round(beats, 4), p.midi, number] for p in element.pitches if 21 <= p.midi <= 108]
    return sorted(rows)


def bars_of(score):
    part = score.parts[0]
    return sorted({round(float(m.getOffsetInHierarchy(part)), 4) for m in part.getElementsByClass("Measure")})


def main():
    out, *folders = map(pathlib.Path, sys.argv[1:])
    warnings.simplefilter("ignore")
    kept = 0
    with open(out, "w") as file:
        for folder in folders:
            for path in sorted(p for p in ([folder] if folder.is_file() else folder.rglob("*")) if p.suffix in KINDS):
                try:
                    score = music21.converter.parse(path)
                    rights, notes = rights_of(score), notes_of(score)
                except Exception as problem:
                    print("left out", path.name, type(problem).__name__, str(problem)[:80], flush=True)
                    continue
                if RESTRICTED.search(rights) or len(notes) < 40:
                    print("left out", path.name, len(notes), rights[:120], flush=True)
                    continue
                name = "/".join(path.parts[-3:])
                file.write(json.dumps({"name": name, "rights": rights, "notes": notes, "bars": bars_of(score)}) + "\n")
                kept += 1
                print(name, len(notes), "|", rights[:100].replace("\n", " "), flush=True)
    print(kept, "scores")


if __name__ == "__main__":
    main()
