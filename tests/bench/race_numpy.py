# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/race_numpy.py - the right-hand side in NumPy held against the compiled one.
#
#     python3 race_numpy.py LENT.SO SCENARIO DAYS ROUNDS
#
# All along a season (the way there is by CVODE), at midnights, after deeds and between, the whole
# vector of rates must agree: each number within 1e-9 of the largest of its kind (heat of cells, heat of soil,
# water, ...) at that moment; also for states beside it, several at once. Otherwise it is not the same
# and this ends in error. Prints a row a round: us compiled, us in NumPy, us a state of a hundred at once,
# largest difference, states, hottest cell and share of liquid water in the coldest, of all states.
import sys
import time

import numpy as np

from lent import CELL_STATES, Lent
from rhs_numpy import SOILS, Rates

SAME, BESIDE, MANY = 1e-9, 4, 100


def kinds(length):
    """what kind each unknown is: of a cell's states, then soil"""
    return np.concatenate([np.full(SOILS, CELL_STATES), np.arange(length - SOILS) % CELL_STATES])


def differ(lent, rates, kind, t, random):
    """largest difference of rates over the largest of its kind, at lent.y and beside it"""
    y = lent.y[:, None] * np.column_stack([np.ones(lent.length), 1 + 0.01 * random.standard_normal(
        (lent.length, BESIDE))])
    got, worst = rates(t, y), 0
    for k in range(y.shape[1]):
        ours = lent.rates(t, y[:, k])
        if np.isnan(ours).any() or np.isnan(got[:, k]).any():
            if np.isnan(ours).any() and np.isnan(got[:, k]).any():
                continue
            return np.inf
        for n in range(CELL_STATES + 1):
            of = kind == n
            most = np.max(abs(ours[of]))
            worst = max(worst, np.max(abs(ours[of] - got[of, k])) / most)
    alone = rates(t, lent.y)
    return max(worst, np.max(abs(alone - got[:, 0]) / np.maximum(abs(alone), 1e-300)) * (SAME / 1e-6))


def season(lent):
    """(worst difference, states, hottest, least liquid) along a season"""
    random = np.random.default_rng(1)
    rates = kind = None
    worst, states, hottest, coldest = 0.0, 0, -np.inf, np.inf
    a, z, fresh = lent.next()
    while z > 0:
        if rates is None:
            rates, kind = Rates(lent), kinds(lent.length)
        rates.today()
        for t in (a, a + 0.37 * (z - a)):
            if t > a:
                lent.go(a, t, fresh)
                rates.store()
                fresh = 0
            worst, states = max(worst, differ(lent, rates, kind, t, random)), states + 1
        lent.go(a, z, fresh)
        a, z, fresh = lent.next()
    over = lent.over()
    return worst, states, np.max(over), np.min(over)


def micros(call, times):
    began = time.process_time()
    for _ in range(times):
        call()
    return 1e6 * (time.process_time() - began) / times


def main():
    so, scenario, days, rounds = sys.argv[1:5]
    lent = Lent(so, scenario, int(days))
    lent.open()
    worst, states, hottest, coldest = season(lent)
    if not worst < SAME:
        sys.exit(f'the right-hand side in NumPy is not the same: {worst:g}')
    lent = Lent(so, scenario, 2)
    lent.open()
    t, _, _ = lent.next()
    rates = Rates(lent)
    many = np.repeat(lent.y[:, None], MANY, axis=1)
    for _ in range(int(rounds)):
        print(f'{micros(lambda: lent.rates(t, lent.y), 5000):.3f}\t{micros(lambda: rates(t, lent.y), 500):.3f}\t'
              f'{micros(lambda: rates(t, many), 20) / MANY:.3f}\t{worst:.3g}\t{states}\t{hottest:.1f}\t{coldest:.2f}',
              flush=True)


main()
