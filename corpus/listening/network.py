"""The network: spectrum in thirds of a semitone -> what each of the 88 keys does, a hundred times a second.

All keys share one set of weights up to a late step: a key looks at the places where its partials lie (and where those
of keys below lie whose partial it might be), then at its own past and future; one recurrent layer over all keys
together adds what the music around says (texture, pedal, room, noise).
"""
import torch
from torch import nn
from torch.nn import functional

KEYS = 88
BANDS = 294
SEMITONES = BANDS // 3
# Semitones from a key to its partials 1, 2, 3, 4, 5, 6, 7, 8, 10 and to the keys of which it is the partial 2 and 3.
PARTIALS = (0, 12, 19, 24, 28, 31, 34, 36, 40, -12, -19)
# Keys that a key is confused with: octaves, twelfths, double octaves, neighbours.
KIN = (0, -24, -19, -12, -1, 1, 12, 19, 24)


def at_steps(x, steps, keys):
    """[b, c, t, f] to [b, c * len(steps), t, keys]: the places so many semitones away, zeros outside."""
    width = x.shape[-1]
    low, high = max(0, -min(steps)), max(0, max(steps) + keys - width)
    if torch.onnx.is_in_onnx_export():
        padded = functional.pad(x, (low, high))
        return torch.cat([padded[..., low + s : low + s + keys] for s in steps], 1)
    # In training channels lie last in memory; joining them there copies nothing twice.
    padded = functional.pad(x.permute(0, 2, 3, 1), (0, 0, low, high))
    return torch.cat([padded[:, :, low + s : low + s + keys] for s in steps], 3).permute(0, 3, 1, 2)


class Block(nn.Module):
    """Two steps in time around each key, added to what was there."""

    def __init__(self, width, dilation):
        super().__init__()
        self.time = nn.Conv2d(width, width, (3, 1), padding=(dilation, 0), dilation=(dilation, 1), bias=False)
        self.norm = nn.BatchNorm2d(width)
        self.mix = nn.Conv2d(width, width, 1, bias=False)
        self.norm_out = nn.BatchNorm2d(width)

    def forward(self, x):
        y = functional.relu(self.norm(self.time(x)))
        return functional.relu(x + self.norm_out(self.mix(y)))


class Kin(nn.Module):
    """What the keys do that a key is confused with."""

    def __init__(self, width, narrow):
        super().__init__()
        self.narrow = nn.Sequential(nn.Conv2d(width, narrow, 1, bias=False), nn.BatchNorm2d(narrow), nn.ReLU())
        self.mix = nn.Sequential(nn.Conv2d(narrow * len(KIN), width, 1, bias=False), nn.BatchNorm2d(width))

    def forward(self, x):
        return functional.relu(x + self.mix(at_steps(self.narrow(x), KIN, KEYS)))


def stage(inside, outside, kernel, stride=(1, 1), padding=None):
    padding = padding or (kernel[0] // 2, kernel[1] // 2)
    return nn.Sequential(
        nn.Conv2d(inside, outside, kernel, stride, padding, bias=False), nn.BatchNorm2d(outside), nn.ReLU()
    )


class Listener(nn.Module):
    def __init__(self, front=32, semitone=48, width=80, around=320, late=False):
        super().__init__()
        self.front = nn.Sequential(stage(1, front, (3, 5)), stage(front, front, (3, 3)))
        self.semitone = stage(front, semitone, (3, 3), (1, 3), (1, 0))
        self.gather = stage(semitone * len(PARTIALS), width, (1, 1))
        self.place = nn.Parameter(torch.zeros(1, width, 1, KEYS))
        self.near = nn.Sequential(Block(width, 1), Block(width, 2), Kin(width, 16), Block(width, 4), Block(width, 8))
        self.far = nn.Sequential(Kin(width, 16), Block(width, 16), Block(width, 1))
        self.all_keys = nn.Sequential(nn.Conv2d(width, 6, 1, bias=False), nn.BatchNorm2d(6), nn.ReLU())
        self.shrink = nn.Linear(6 * KEYS, around)
        self.music = nn.GRU(around, around // 2, 2, batch_first=True, bidirectional=True)
        self.back = nn.Linear(around, 8 * KEYS)
        self.pedal = nn.Linear(around, 1)
        self.late = None
        if late:  # the trial of run 6: what the music around says joins each key before further steps, which begin idle
            self.join = nn.Conv2d(8, width, 1)
            self.late = nn.Sequential(Block(width, 2), Kin(width, 16), Block(width, 8), Block(width, 1))
            for idle in (self.join.weight, self.join.bias, *(norm.weight for norm in self.last_norms())):
                nn.init.uniform_(idle, -1e-4, 1e-4)
        self.heads = nn.Sequential(nn.Conv2d(width + 8, width, (3, 1), padding=(1, 0)), nn.ReLU(), nn.Conv2d(width, 4, 1))
        nn.init.constant_(self.heads[2].bias, -4.0)

    def last_norms(self):
        """The normalisation at the end of each of the late steps."""
        return [part.norm_out if isinstance(part, Block) else part.mix[1] for part in self.late]

    def around(self, spectrum):
        """[b, t, BANDS] to what each key is like [b, width, t, KEYS] and what the music around says [b, t, around]."""
        x = self.front(spectrum.unsqueeze(1))
        x = self.semitone(x)
        x = self.gather(at_steps(x, PARTIALS, KEYS)) + self.place
        x = self.far(self.near(x))
        whole = self.all_keys(x).permute(0, 2, 1, 3).flatten(2)
        heard, _ = self.music(functional.relu(self.shrink(whole)))
        return x, heard

    def forward(self, spectrum):
        """[b, t, BANDS] to logits: keys [b, 4, t, KEYS] (onset, sounding, loudness, offset) and pedal [b, t, 1]."""
        x, heard = self.around(spectrum)
        back = self.back(heard).reshape(heard.shape[0], -1, 8, KEYS).permute(0, 2, 1, 3)
        if self.late is not None:
            x = self.late(functional.relu(x + self.join(back)))
        return self.heads(torch.cat([x, back], 1)), self.pedal(heard)


COMPANY = ("piano", "instruments", "voice", "drums", "nothing")


class Company(nn.Module):
    """Whose sound it is: looks at the spectrum itself and at what the listener, which stays as it is, made of it."""

    def __init__(self, width=80, around=320, wide=96):
        super().__init__()
        self.own = nn.Sequential(
            stage(1, 12, (5, 5), (1, 2), (2, 0)), stage(12, 24, (3, 3), (1, 2), (1, 0)), stage(24, 32, (3, 3), (1, 2), (1, 0))
        )
        self.narrow = nn.Conv2d(32, 8, 1)
        self.shrink = nn.Linear(8 * 35, 64)
        self.keys = nn.Conv2d(width, 24, 1)
        self.music = nn.Linear(around, 48)
        self.time = nn.Sequential(
            nn.Dropout(0.1), *along(64 + 64 + 48 + 48, wide, 1), *along(wide, wide, 3), *along(wide, wide, 9),
            nn.Conv1d(wide, len(COMPANY), 1),
        )

    def forward(self, spectrum, x, heard):
        """Logits [b, t, COMPANY]."""
        own = self.own(spectrum.unsqueeze(1))
        keys = functional.relu(self.keys(x))
        shape = functional.relu(self.shrink(functional.relu(self.narrow(own)).permute(0, 2, 1, 3).flatten(2)))
        parts = [own.mean(3), own.amax(3), keys.mean(3), keys.amax(3)]
        parts += [shape.transpose(1, 2), functional.relu(self.music(heard)).transpose(1, 2)]
        return self.time(torch.cat(parts, 1)).transpose(1, 2)


def along(inside, outside, dilation):
    return nn.Conv1d(inside, outside, 5, padding=2 * dilation, dilation=dilation, bias=False), nn.BatchNorm1d(outside), nn.ReLU()


class Exported(nn.Module):
    """The same with the names and ranges that the program reads."""

    def __init__(self, listener):
        super().__init__()
        self.listener = listener

    def forward(self, spectrum):
        keys, pedal = self.listener(spectrum)
        onset, sounding, loudness, offset = torch.sigmoid(keys).unbind(1)
        return onset, sounding, loudness, offset, torch.sigmoid(pedal)


def export(listener, path):
    """Writes the ONNX file; the listener must be on the CPU."""
    names = ["onset", "sounding", "loudness", "offset", "pedal"]
    wrapped = Exported(listener).eval()
    options = {"dynamo": False} if "dynamo" in torch.onnx.export.__code__.co_varnames else {}
    torch.onnx.export(
        wrapped, torch.zeros(1, 200, BANDS), str(path), input_names=["spectrum"], output_names=names, opset_version=17,
        dynamic_axes={name: {1: "frames"} for name in ["spectrum", *names]}, **options,
    )
