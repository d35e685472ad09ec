#!/usr/bin/python3
# Writes chain_rounds.csv: the fewest take-ups of small batches for each number of rounds, by an integer programme in
# HiGHS (scipy.optimize.milp, scipy 1.10.1). Chains are written as letters, one chain a word.
import random
import sys

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix


def fewest(chains, rounds):
    kinds = sorted({kind for chain in chains for kind in chain})
    links = [(c, i) for c, chain in enumerate(chains) for i in range(len(chain))]
    x = {(link, r): n for n, (link, r) in enumerate((link, r) for link in links for r in range(rounds))}
    y = {(kind, r): len(x) + n for n, (kind, r) in enumerate((kind, r) for kind in kinds for r in range(rounds))}
    rows, low, high = [], [], []
    for link in links:
        rows.append({x[link, r]: 1 for r in range(rounds)})
        low.append(1), high.append(1)
        for r in range(rounds):
            rows.append({x[link, r]: 1, y[chains[link[0]][link[1]], r]: -1})
            low.append(-np.inf), high.append(0)
            if link[1] > 0:
                rows.append({x[link, r]: 1, x[(link[0], link[1] - 1), r]: 1})
                low.append(0), high.append(1)
    matrix = lil_matrix((len(rows), len(x) + len(y)))
    for i, row in enumerate(rows):
        for j, value in row.items():
            matrix[i, j] = value
    cost = np.concatenate([np.zeros(len(x)), np.ones(len(y))])
    answer = milp(cost, constraints=LinearConstraint(matrix.tocsr(), low, high), integrality=np.ones(len(cost)),
                  bounds=Bounds(0, 1))
    return round(answer.fun) if answer.status == 0 else None


random.seed(20261126)
print("chains,rounds,take_ups")
for case in range(24):
    letters = "abcdefgh"[: random.randint(3, 8)]
    chains = []
    for _ in range(random.randint(2, 6)):
        chain = random.choice(letters)
        for _ in range(random.randint(1, 7)):
            chain += random.choice([c for c in letters if c != chain[-1]])
        chains.append(chain)
    once = len(set("".join(chains)))
    rounds = 2
    while True:
        least = fewest(chains, rounds)
        print(" ".join(chains), rounds, least, sep=",", flush=True)
        if least == once:
            break
        rounds += 1
