"""The next clips are made while the GPU still works on the last ones."""
import torch


class Ahead:
    """`make()` gives clips as tensors in tuples; on a GPU it runs on a stream of its own, one step ahead."""

    def __init__(self, make, device):
        self.make, self.held = make, None
        self.stream = torch.cuda.Stream(device) if device.type == "cuda" else None

    def begin(self):
        """Starts the next clips; to be called when all work of a step has been handed to the GPU."""
        if self.stream is not None:
            with torch.cuda.stream(self.stream):
                self.held = self.make()

    def __call__(self):
        if self.stream is None:
            return self.make()
        now = torch.cuda.current_stream()
        if self.held is None:
            self.stream.wait_stream(now)
            self.begin()
        now.wait_stream(self.stream)
        made, self.held = self.held, None
        for tensor in flat(made):  # their memory is not to be used again before the step is done
            tensor.record_stream(now)
        return made


def flat(made):
    return [tensor for part in made for tensor in flat(part)] if isinstance(made, tuple) else [made]
