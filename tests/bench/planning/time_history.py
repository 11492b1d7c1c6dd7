"""Times the numpy baseline of "history to shrinkage to level" (T5 of bench_speed.py) and leaves its inputs for our side.

usage: python time_history.py ITEMS FOLDER -> prints "seconds sum_of_levels"; writes demand.i32, lead.f64 and target.f64
"""
import sys
import bench_speed as b
import numpy as np

items, folder = int(sys.argv[1]), sys.argv[2]
rate, lead, cv, cost, Q, target, down = b.gen(items)
Y = b.demand(items)
seconds, levels = b.t(lambda: b.T5(Y, lead, target), 5)
np.ascontiguousarray(Y, dtype="<i4").tofile(f"{folder}/demand.i32")
np.asarray(lead, dtype="<f8").tofile(f"{folder}/lead.f64")
np.asarray(target, dtype="<f8").tofile(f"{folder}/target.f64")
print(seconds, int(levels.sum()))
