# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/race_scipy.py - the short season by SciPy's BDF and LSODA.
#
#     python3 race_scipy.py LENT.SO SCENARIO DAYS REFERENCE ROUND
#
# The right-hand side is our compiled one, or that in NumPy (rhs_numpy.py): one state after another, or
# all columns of a matrix of differences at once, which is its best.
# REFERENCE: doubles, temperatures of all cells at each day's end (bench writes them). Prints a row
# for each run: contender, relative tolerance, right-hand sides, s of the processor, rms K, worst K.
# The method stops where the season does (midnights, deeds) but goes on from there with its history
# unless somebody worked on the pile, as CVODE does.
import sys
import time

import numpy as np
from scipy.integrate import BDF, LSODA

from lent import Lent
from rhs_numpy import Rates

LONGEST_S = 14400.0


class Compiled:
    """the compiled right-hand side, which sees by itself what a day and the clocks change"""
    def __init__(self, lent):
        self.rates, self.counted = lent.rates, lent.count

    def __call__(self, t, y):
        return self.rates(t, y)

    def today(self):
        pass

    store = today

    @property
    def count(self):
        return self.counted()


def go_on(solver, z):
    solver.t_bound, solver.status = z, 'running'


def bdf(sparsity, rates=Compiled, at_once=False):
    def make(lent, rhs, a, z, relative):
        return BDF(rhs, a, lent.y, z, rtol=relative, atol=relative * lent.allowed(), max_step=LONGEST_S,
                   first_step=1.0, jac_sparsity=sparsity(lent), vectorized=at_once)
    return rates, make, go_on


def lsoda_make(lent, rhs, a, z, relative):
    return LSODA(rhs, a, lent.y, z, rtol=relative, atol=relative * lent.allowed(),
                 max_step=LONGEST_S, first_step=1.0, lband=lent.half, uband=lent.half)


def lsoda_go_on(solver, z):
    go_on(solver, z)
    solver._lsoda_solver._integrator.rwork[0] = z


TOUCH, FLOW, BAND = 'BDF, cells that touch', 'BDF, flows between them', 'LSODA, band'
NUMPY = 'BDF, right-hand side in NumPy'
AT_ONCE = NUMPY + ', columns at once'
CONTENDERS = {
    TOUCH: bdf(Lent.near),
    FLOW: bdf(Lent.nearer),
    BAND: (Compiled, lsoda_make, lsoda_go_on),
    NUMPY: bdf(Lent.nearer, Rates),
    AT_ONCE: bdf(Lent.nearer, Rates, True),
}
# all in the first round, then those that are anywhere near; what takes long only once more
FIRST = {TOUCH: (1e-3, 1e-4), FLOW: (1e-2, 1e-3, 1e-4, 1e-5), BAND: (1e-2, 1e-3, 1e-4, 1e-5),
         NUMPY: (1e-3, 1e-4), AT_ONCE: (1e-2, 1e-3, 1e-4, 1e-5)}
AGAIN = {FLOW: (1e-3, 1e-4), AT_ONCE: (1e-4,)}
SECOND = {**AGAIN, NUMPY: (1e-4,)}


def season(lent, how, relative):
    """s of the processor and how many right-hand sides; None where the method gave up"""
    kind, make, go_on_to = how
    lent.open()
    solver, began = None, time.process_time()
    a, z, fresh = lent.next()
    rhs = kind(lent)
    while z > 0:
        rhs.today()
        if fresh:
            solver = make(lent, rhs, a, z, relative)
        else:
            go_on_to(solver, z)
        while solver.status == 'running':
            try:
                solver.step()
            except RuntimeError: # of SuperLU, where a loose tolerance made the matrix singular
                return None
            lent.fold(solver.y)
            rhs.store()
        if solver.status == 'failed':
            return None
        lent.y = np.array(solver.y)
        a, z, fresh = lent.next()
    return time.process_time() - began, rhs.count


def main():
    so, scenario, days, reference, turn = sys.argv[1:6]
    lent = Lent(so, scenario, int(days))
    exact = np.fromfile(reference)
    for name, relatives in {'1': FIRST, '2': SECOND}.get(turn, AGAIN).items():
        for relative in relatives:
            took = season(lent, CONTENDERS[name], relative)
            if took is None:
                print(f'{name} at {relative:g} gave up', file=sys.stderr)
                continue
            off = lent.over() - exact
            print(f'SciPy {name}\t{relative:g}\t{took[1]}\t{took[0]:.6f}\t'
                  f'{np.sqrt(np.mean(off ** 2)):.6g}\t{np.max(abs(off)):.6g}', flush=True)


main()
