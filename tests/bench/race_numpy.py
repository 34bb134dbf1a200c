# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/race_numpy.py - the right-hand side in NumPy held against the compiled one.
#
#     python3 race_numpy.py LENT.SO SCENARIO DAYS ROUNDS
#
# All along a season (the way there is by CVODE), at midnights, after deeds and between, the whole
# vector of rates must agree: each number within 1e-9 of the largest of its kind (heat of cells, heat of
# soil, water, ...) at that moment; also at states beside it, several at once. Oxygen's rate, which is
# next to nothing where all stands still, is held against the largest reading over its lag. If they don't
# agree this ends in error. Prints a row a round: us compiled, us in NumPy, us a state of a hundred at
# once, largest difference, moments, coldest and hottest cell at a day's end.
import sys
import time

import numpy as np

from lent import CELL_STATES, Lent
from rhs_numpy import OXYGEN, SOILS, Rates

SAME, BESIDE, MANY = 1e-9, 4, 100


def differ(lent, rates, t, random):
    """largest difference of rates over the largest of their kind, at lent.y and beside it"""
    y = lent.y[:, None] * (1 + 0.01 * np.column_stack(
        [np.zeros(lent.length), random.standard_normal((lent.length, BESIDE))]))
    ours = np.column_stack([lent.rates(t, column) for column in [lent.y, *y.T]])
    off = abs(np.column_stack([rates(t, lent.y), rates(t, np.asfortranarray(y))]) - ours)
    worst = [np.max(off[:SOILS]) / np.max(abs(ours[:SOILS]))]
    for kind in range(CELL_STATES):
        most = np.max(abs(ours[SOILS + kind::CELL_STATES]), axis=0)
        if kind == OXYGEN:
            most = np.maximum(most, np.max(lent.y[SOILS + kind::CELL_STATES]) / rates.lag)
        worst.append(np.max(np.max(off[SOILS + kind::CELL_STATES], axis=0) / most))
    return np.max(worst)    # not a number if any isn't


def season(lent):
    """differences at all moments of a season"""
    lent.open()
    a, z, fresh = lent.next()
    random, rates, off = np.random.default_rng(1), Rates(lent), []
    while z > 0:
        rates.today()
        off.append(differ(lent, rates, a, random))
        between = a + 0.37 * (z - a)
        lent.go(a, between, fresh)
        rates.store()
        off.append(differ(lent, rates, between, random))
        lent.go(between, z, False)
        a, z, fresh = lent.next()
    return off


def micros(call, times):
    began = time.process_time()
    for _ in range(times):
        call()
    return 1e6 * (time.process_time() - began) / times


def main():
    so, scenario, days, rounds = sys.argv[1:5]
    lent = Lent(so, scenario, int(days))
    off = season(lent)
    if not np.max(off) < SAME:
        sys.exit(f'the right-hand side in NumPy is not the same: {np.max(off):g}')
    over = lent.over()
    lent = Lent(so, scenario, 2)
    lent.open()
    t, _, _ = lent.next()
    rates = Rates(lent)
    many = np.repeat(lent.y[:, None], MANY, axis=1)
    for _ in range(int(rounds)):
        print(f'{micros(lambda: lent.rates(t, lent.y), 5000):.3f}\t{micros(lambda: rates(t, lent.y), 500):.3f}\t'
              f'{micros(lambda: rates(t, many), 20) / MANY:.3f}\t{np.max(off):.2g}\t{len(off)}\t'
              f'{np.min(over):.0f}\t{np.max(over):.0f}', flush=True)


main()
