"""Large matrices in half as many bytes: `python3 half.py FROM TO`.

The weights of the recurrent layers and of the products around them are kept as float16 and made float32 when the network is
opened (a Cast that every runtime does once); they are two thirds of all. Convolutions stay as they are.
"""
import sys

import numpy as np
import onnx
from onnx import helper, numpy_helper

LEAST = 20_000  # numbers in a matrix worth it


def halved(model):
    graph = model.graph
    users = {name: node for node in graph.node for name in node.input}
    casts = []
    for tensor in list(graph.initializer):
        values = numpy_helper.to_array(tensor)
        if tensor.name not in users or users[tensor.name].op_type not in ("GRU", "MatMul", "Gemm") or values.size < LEAST:
            continue
        short = tensor.name + "/short"
        casts.append(helper.make_node("Cast", [short], [tensor.name], name=tensor.name + "/cast", to=onnx.TensorProto.FLOAT))
        tensor.CopyFrom(numpy_helper.from_array(values.astype(np.float16), short))
    nodes = [*casts, *graph.node]
    del graph.node[:]
    graph.node.extend(nodes)
    onnx.checker.check_model(model)
    return model


if __name__ == "__main__":
    onnx.save(halved(onnx.load(sys.argv[1])), sys.argv[2])
