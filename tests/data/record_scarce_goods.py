# Makes scarce_goods.csv: goods that fall short, and the least total of packs and changes, by scipy.optimize.milp
# (HiGHS). python3 record_scarce_goods.py > scarce_goods.csv
# A good is in_hand:places:stands_in:packs, a pack pieces/price/at_least; changes are rows of thousandths.
import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

rng = np.random.default_rng(11)
print("per place,goods,changes,total")
made = 0
while made < 60:
    n = int(rng.integers(2, 7))
    p = int(rng.integers(1, 4))
    goods, packs = [], []
    for _ in range(n):
        places = int(rng.integers(0, 40))
        in_hand = int(rng.integers(0, 40 * p))
        stands = int(rng.random() < 0.85)
        own = [(int(rng.integers(1, 60)), int(rng.integers(0, 400)), int(rng.choice([1, 1, 1, 2, 5])))
               for _ in range(int(rng.choice([0, 1, 1, 2, 3])))]
        own = list({size: (size, price, least) for size, price, least in own}.values())
        goods.append((in_hand, places, stands))
        packs.append(own)
    changes = rng.integers(0, 60000, (n, n))
    # whole numbers: moves, then packs bought, then whether any of a size is bought
    moves = [(a, b) for a in range(n) for b in range(n) if a != b and goods[b][2]]
    sizes = [(g, *pack) for g in range(n) for pack in packs[g]]
    m, k = len(moves), len(sizes)
    if m + k == 0:
        continue
    cost = [changes[a, b] for a, b in moves] + [1000 * price for _, _, price, _ in sizes] + [0] * k
    big = 40 * n * p + 5
    rows, low, high = [], [], []
    for g in range(n):
        # in hand + bought >= what stays and what comes
        row = np.zeros(m + 2 * k)
        for j, (a, b) in enumerate(moves):
            row[j] = p * ((a == g) - (b == g))
        for j, (good, pieces, _, _) in enumerate(sizes):
            row[m + j] = pieces * (good == g)
        rows.append(row), low.append(p * goods[g][1] - goods[g][0]), high.append(np.inf)
        row = np.zeros(m + 2 * k)
        for j, (a, _) in enumerate(moves):
            row[j] = a == g
        rows.append(row), low.append(0), high.append(goods[g][1])
    for j, (_, _, _, least) in enumerate(sizes):
        row = np.zeros(m + 2 * k)
        row[m + j], row[m + k + j] = 1, -least
        rows.append(row), low.append(0), high.append(np.inf)
        row = np.zeros(m + 2 * k)
        row[m + j], row[m + k + j] = 1, -big
        rows.append(row), low.append(-np.inf), high.append(0)
    upper = [np.inf] * (m + k) + [1] * k
    best = milp(cost, constraints=LinearConstraint(np.array(rows), low, high), integrality=np.ones(m + 2 * k),
                bounds=Bounds(0, upper), options={"mip_rel_gap": 0})
    if best.status not in (0, 2):
        continue
    total = round(best.fun) if best.status == 0 else -1
    if total == 0:
        continue
    made += 1
    text = " ".join(":".join(map(str, good)) + ":" + ";".join("/".join(map(str, pack)) for pack in own)
                    for good, own in zip(goods, packs))
    print(p, text, " ".join(map(str, changes.ravel())), total, sep=",")
