# Makes min_cost_flow.csv: random networks and the cost of the greatest flow, by scipy.optimize.linprog (HiGHS).
# python3 record_flows.py > min_cost_flow.csv
import numpy as np
import scipy
from scipy.optimize import linprog

rng = np.random.default_rng(5)
print("nodes,wanted,amount,cost,arcs")
for case in range(60):
    n = int(rng.integers(2, 12))
    m = int(rng.integers(1, 40))
    arcs = []
    while len(arcs) < m:
        a, b = (int(x) for x in rng.integers(0, n, 2))
        if a != b:
            arcs.append((a, b, int(rng.integers(0, 30)), int(rng.integers(0, 50))))
    wanted = int(rng.integers(1, 60))
    balance = np.zeros((n, m))
    for j, (a, b, _, _) in enumerate(arcs):
        balance[a, j] += 1
        balance[b, j] -= 1
    bounds = [(0, u) for _, _, u, _ in arcs]
    # the amount first, then its cost: source 0, sink n - 1
    most = linprog(-balance[0], A_ub=[balance[0]], b_ub=[wanted], A_eq=balance[1:-1] if n > 2 else None,
                   b_eq=np.zeros(n - 2) if n > 2 else None, bounds=bounds, method="highs")
    amount = round(-most.fun)
    right = np.zeros(n)
    right[0], right[-1] = amount, -amount
    best = linprog([c for *_, c in arcs], A_eq=balance, b_eq=right, bounds=bounds, method="highs")
    assert best.success and abs(best.fun - round(best.fun)) < 1e-6
    print(n, wanted, amount, round(best.fun), " ".join(":".join(map(str, a)) for a in arcs), sep=",")
