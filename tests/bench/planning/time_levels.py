"""Times the baselines of the stock levels (T1, T2, T3 and T7 of bench_speed.py) and leaves their items for our side.

usage: python time_levels.py ITEMS FOLDER -> one line a task: "name seconds check check"; writes items.f64, seven columns
(rate a year, lead days, cv of the lead time, unit cost, order quantity, target, downtime cost an hour)
"""
import sys
import bench_speed as b
import numpy as np

items, folder = int(sys.argv[1]), sys.argv[2]
rate, lead, cv, cost, Q, target, down = b.gen(items)
np.column_stack([rate, lead, cv, cost, Q, target, down]).astype("<f8").tofile(f"{folder}/items.f64")
scipy_s, S = b.t(lambda: b.T1_scipy(rate, lead, target), 5)
numpy_s, S2 = b.t(lambda: b.T1_numpy(rate, lead, target), 5)
assert (S == S2).all()
print("base_stock", min(scipy_s, numpy_s), int(S.sum()), int(S.max()))
seconds, r = b.t(lambda: b.T2_numpy(rate, lead, cv, Q, target), 3)
print("by_fill", seconds, int(r.sum()), 0)
seconds, (R, total) = b.t(lambda: b.T3_py(rate, lead, cost, down))
print("by_cost", seconds, int(R.sum()), total)
seconds, (S, spent) = b.t(lambda: b.T7(rate, lead, cost, cost.sum()*1.5))
print("budget", seconds, int(S.sum()), spent)
