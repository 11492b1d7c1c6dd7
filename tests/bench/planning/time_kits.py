"""Times the exact completion of 1,000 kits as bench_speed.py works it out, and prints seconds and the sums of P50 and P90."""
import bench_speed as b
k = b.kits()
s, e = b.t(lambda: b.T6_exact(k), 3)
print(s, e[:, 0].sum(), e[:, 1].sum())
