# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/lent.py - the season that lent.c lends, in Python.
#
# Unknowns lie as in tests/run/bdf.h: soil first, then all states of a cell side by side.
import ctypes

import numpy as np
from scipy.sparse import csc_matrix

CELL_STATES = 13
TRIM_THRESHOLD, MMAP_THRESHOLD = -1, -3     # glibc's malloc.h


def keep_memory():
    """Large arrays come and go: glibc would give their memory back and fetch it anew each time, which
    costs more than all arithmetic on them."""
    mallopt = getattr(ctypes.CDLL(None), 'mallopt', None)
    if mallopt:
        mallopt(TRIM_THRESHOLD, 1 << 30)
        mallopt(MMAP_THRESHOLD, 1 << 25)


keep_memory()


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
        """from when, until when (negative: it is over), and whether y was changed"""
        a, z, fresh = ctypes.c_double(), ctypes.c_double(), ctypes.c_int()
        self.so.lent_next(self.at(self.y), *map(ctypes.byref, (a, z, fresh)))
        return a.value, z.value, fresh.value

    def go(self, a, z, fresh):
        """by CVODE to a moment"""
        self.so.lent_go(self.at(self.y), *map(ctypes.byref, (ctypes.c_double(a), ctypes.c_double(z),
                                                             ctypes.c_int(fresh))))

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

    def fold(self, y):
        self.so.lent_fold(self.at(np.ascontiguousarray(y)))

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

    def nearer(self):
        """the same, but that only heat, water and oxygen see what touches; all else sees its own cell"""
        cell = self.places()
        state = np.where(cell < 0, 0, (np.arange(self.length) - np.sum(cell < 0)) % CELL_STATES)
        flowing = np.isin(state, (0, 1, CELL_STATES - 1))
        return csc_matrix(self.near().toarray() & ((cell[:, None] == cell) | flowing[:, None]))
