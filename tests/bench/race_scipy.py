# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/race_scipy.py - the short season by SciPy's BDF and LSODA on our compiled right-hand side.
#
#     python3 race_scipy.py LENT.SO SCENARIO DAYS REFERENCE ROUND
#
# REFERENCE: doubles, temperatures of all cells at each day's end (bench writes them). Prints a row
# for each run: contender, relative tolerance, right-hand sides, s of the processor, rms K, worst K.
# The method stops where the season does (midnights, deeds) but goes on from there with its history
# unless somebody worked on the pile, as CVODE does.
import ctypes
import sys
import time

import numpy as np
from scipy.integrate import BDF, LSODA
from scipy.sparse import csc_matrix

LONGEST_S = 14400.0
CELL_STATES = 12


class Lent:
    def __init__(self, object_path, scenario, days):
        self.so = ctypes.CDLL(object_path)
        self.scenario, self.days = scenario, days
        self.good = ctypes.c_int()
        self.moment = ctypes.c_double()

    def open(self):
        path, days = ctypes.c_char_p(self.scenario.encode()), ctypes.c_int(self.days)
        length, cells, half = ctypes.c_int(), ctypes.c_int(), ctypes.c_int()
        self.so.lent_open(*map(ctypes.byref, (path, days, length, cells, half)))
        self.length, self.cells, self.half = length.value, cells.value, half.value
        self.y = np.zeros(self.length)

    def next(self):
        a, z, fresh = ctypes.c_double(), ctypes.c_double(), ctypes.c_int()
        self.so.lent_next(self.at(self.y), *map(ctypes.byref, (a, z, fresh)))
        return a.value, z.value, fresh.value

    @staticmethod
    def at(array):
        return ctypes.c_void_p(array.ctypes.data)

    def rates(self, t, y):
        y = np.ascontiguousarray(y)
        rate = np.empty_like(y)
        self.moment.value = t
        self.so.lent_rates(ctypes.byref(self.moment), self.at(y), self.at(rate),
                           ctypes.byref(self.good))
        if not self.good.value:
            rate[:] = np.nan
        return rate

    def allowed(self):
        a = np.empty(self.length)
        self.so.lent_allowed(self.at(a))
        return a

    def over(self):
        over = np.empty(self.days * self.cells)
        self.so.lent_over(self.at(over))
        return over

    def count(self):
        n = ctypes.c_int()
        self.so.lent_count(ctypes.byref(n))
        return n.value

    def touching(self):
        touch = np.zeros((self.cells, self.cells), dtype=np.int32)
        self.so.lent_touch(self.at(touch))
        return touch

    def places(self):
        """cell of each unknown; -1 for soil"""
        soils = self.length - self.cells * CELL_STATES
        stride = (self.length - soils) // CELL_STATES
        return np.concatenate([-np.ones(soils, int), np.repeat(np.arange(stride), CELL_STATES)])

    def near(self):
        """own cell and those that touch it; soil with soil and with the lowest cells"""
        touch = self.touching() + np.eye(self.cells, dtype=int)
        cell = self.places()
        in_cell = cell >= 0
        near = np.zeros((self.length, self.length), dtype=bool)
        near[np.ix_(in_cell, in_cell)] = touch[np.ix_(cell[in_cell], cell[in_cell])] > 0
        low = np.where(~in_cell | (cell < self.cells // 8))[0]
        near[np.ix_(~in_cell, low)] = True
        near[np.ix_(low, ~in_cell)] = True
        return csc_matrix(near)

    def band(self):
        n = np.arange(self.length)
        return csc_matrix(abs(n[:, None] - n[None, :]) <= self.half)


def bdf(sparsity):
    def make(lent, a, z, relative):
        return BDF(lent.rates, a, lent.y, z, rtol=relative, atol=relative * lent.allowed(),
                   max_step=LONGEST_S, first_step=1.0,
                   jac_sparsity=sparsity(lent) if sparsity else None)

    def go_on(solver, z):
        solver.t_bound, solver.status = z, 'running'
    return make, go_on


def lsoda_make(lent, a, z, relative):
    return LSODA(lent.rates, a, lent.y, z, rtol=relative, atol=relative * lent.allowed(),
                 max_step=LONGEST_S, first_step=1.0, lband=lent.half, uband=lent.half)


def lsoda_go_on(solver, z):
    solver.t_bound, solver.status = z, 'running'
    solver._lsoda_solver._integrator.rwork[0] = z


CONTENDERS = {
    'BDF, cells that touch': bdf(Lent.near),
    'BDF, band': bdf(Lent.band),
    'LSODA, band': (lsoda_make, lsoda_go_on),
}
# all in the first round, then those that are anywhere near
ALL = {'BDF, cells that touch': (1e-2, 1e-3, 1e-4, 1e-5), 'BDF, band': (1e-3,),
       'LSODA, band': (1e-2, 1e-3, 1e-4, 1e-5)}
AGAIN = {'BDF, cells that touch': (1e-3, 1e-4), 'LSODA, band': (1e-2, 1e-3, 1e-4)}


def season(lent, how, relative):
    make, go_on = how
    lent.open()
    solver, began = None, time.process_time()
    a, z, fresh = lent.next()
    while z > 0:
        if fresh:
            solver = make(lent, a, z, relative)
        else:
            go_on(solver, z)
        while solver.status == 'running':
            solver.step()
            lent.so.lent_fold(lent.at(np.ascontiguousarray(solver.y)))
        if solver.status == 'failed':
            return None
        lent.y = np.array(solver.y)
        a, z, fresh = lent.next()
    return time.process_time() - began


def main():
    so, scenario, days, reference, turn = sys.argv[1:6]
    lent = Lent(so, scenario, int(days))
    exact = np.fromfile(reference)
    for name, relatives in (ALL if turn == '1' else AGAIN).items():
        for relative in relatives:
            took = season(lent, CONTENDERS[name], relative)
            if took is None:
                print(f'{name} at {relative:g} gave up', file=sys.stderr)
                continue
            off = lent.over() - exact
            print(f'SciPy {name}\t{relative:g}\t{lent.count()}\t{took:.6f}\t'
                  f'{np.sqrt(np.mean(off ** 2)):.6g}\t{np.max(abs(off)):.6g}', flush=True)


main()
