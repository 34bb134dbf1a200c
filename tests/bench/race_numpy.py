# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/race_numpy.py - one part of the right-hand side in NumPy against the compiled one.
#
#     python3 race_numpy.py LENT.SO SCENARIO ROUNDS
#
# The part is flow/medium.c: every cell's temperature, vapour, density, free air, permeability,
# diffusivity and conductivity, all array arithmetic, NumPy's best case: faces, the draught and the
# banded equations for air and oxygen would fare worse. Prints a row a round: us compiled, us in NumPy,
# us of a whole compiled right-hand side, largest relative difference of the results.
import ctypes
import sys
import time

import numpy as np

PRESSURE = (7.910773220864599e+00, 4.405371606272332e+00, -1.224407428635585e+00,
            3.160029261295730e-01, -7.687481903963742e-02, 1.843287970454005e-02,
            -4.463378427604455e-03, 1.257311547180260e-03, -3.113722303777676e-04)


def medium(heat, water, dry, oxygen, ash, solid_m3, grain, wet_slope, ice_slope, volume, law):
    half, dry_conduct, least, most, diffusion, air = law
    organic = dry - ash
    square = 2.15 * organic
    solid = 1202.0 * organic + 870.0 * ash
    warm_c = solid + 4186.0 * water
    above = np.maximum(heat, 0)
    root = np.sqrt(warm_c * warm_c + 4 * square * above)
    over = 2 * above / (warm_c + root)
    capacity, water_J, liquid = root, 4186.0 * over, np.ones_like(over)
    thawed = heat >= 0
    if not thawed.all():
        cold_c = solid + 2097.0 * water
        below = np.minimum(heat, 0)
        mid = cold_c * 0.5 + water * 333.5e3 + below
        cold_root = np.sqrt(mid * mid - 2 * cold_c * below)
        cold = np.where(mid > 0, below / (mid + cold_root), (mid - cold_root) / (2 * cold_c))
        share = 0.5 / (0.5 - cold)
        over = np.where(thawed, over, cold)
        capacity = np.where(thawed, capacity, cold_c + water * (333.5e3 / 0.5) * share * share)
        water_J = np.where(thawed, water_J, 2097.0 * cold + 333.5e3 * cold * share * 2)
        liquid = np.where(thawed, liquid, share)
    u = water / dry
    wet = u * u * np.sqrt(u)
    activity = wet / (wet + half * half * np.sqrt(half))
    s = (over - 22.5) * (1 / 72.5)
    log_p, d = np.full_like(s, PRESSURE[8]), np.zeros_like(s)
    for a in PRESSURE[7::-1]:
        d = d * s + log_p
        log_p = log_p * s + a
    pure = np.exp(log_p)
    p = activity * pure
    rest = 1 / (air - p)
    humid = 0.621945 * p * rest
    dry_rho = (air - p) / (287.042 * (over + 273.15))
    e = 1 - (solid_m3 + water * 1e-3) / volume
    e = 0.5 * (e + np.sqrt(e * e + 1e-4))
    dense = 1 - e
    open_m2 = least + 1 / (dense * dense / (grain * e * e * e) + 1 / most)
    viscosity = 1.71057576e-5 + over * (3.98373016e-8 + over * (1.51623377e-10 - over * 9.59596e-12))
    spread = 1.00007135 + over * (6.6267778e-3 + over * 9.65332e-6)
    return np.array([
        over, capacity, water_J, liquid, p, humid,
        0.621945 * air * rest * rest * activity * pure * d * (1 / 72.5), dry_rho,
        dry_rho * (1 + humid + (12.011 / 28.96) * (0.2095 - oxygen)), e, open_m2 / viscosity,
        diffusion * (2.178e-5 * 101325) / air * e * e * dry_rho * spread,
        dry_conduct + water * (wet_slope * liquid + ice_slope * (1 - liquid))])


def at(array):
    return ctypes.c_void_p(array.ctypes.data)


def micros(call, times):
    began = time.process_time()
    call()
    return 1e6 * (time.process_time() - began) / times


def main():
    so = ctypes.CDLL(sys.argv[1])
    path, days = ctypes.c_char_p(sys.argv[2].encode()), ctypes.c_int(2)
    length, cells, half = ctypes.c_int(), ctypes.c_int(), ctypes.c_int()
    so.lent_open(*map(ctypes.byref, (path, days, length, cells, half)))
    y, rate, good = np.zeros(length.value), np.zeros(length.value), ctypes.c_int()
    a, z, fresh = ctypes.c_double(), ctypes.c_double(), ctypes.c_int()
    so.lent_next(at(y), *map(ctypes.byref, (a, z, fresh)))
    so.lent_rates(ctypes.byref(a), at(y), at(rate), ctypes.byref(good))
    read, law, filled = np.zeros((10, cells.value)), np.zeros(6), np.zeros((13, cells.value))
    many, few = ctypes.c_int(20000), 500
    so.lent_medium(ctypes.byref(ctypes.c_int(1)))
    so.lent_medium_in(at(read), at(law))
    so.lent_medium_out(at(filled))
    off = np.max(abs(medium(*read, law) / filled - 1))
    if not off < 1e-9:
        sys.exit(f'the NumPy version is not the same: {off:g}')
    for _ in range(int(sys.argv[3])):
        compiled = micros(lambda: so.lent_medium(ctypes.byref(many)), many.value)
        numpy = micros(lambda: [medium(*read, law) for _ in range(few)], few)
        whole = micros(lambda: [so.lent_rates(ctypes.byref(a), at(y), at(rate), ctypes.byref(good))
                                for _ in range(5000)], 5000)
        print(f'{compiled:.4f}\t{numpy:.3f}\t{whole:.3f}\t{off:.3g}')


main()
