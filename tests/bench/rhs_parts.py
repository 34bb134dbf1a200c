# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/rhs_parts.py - what the right-hand side in NumPy is made of: mesh, laws, frame, weather.
#
# Geometry, the day's frame, pools and laws are read through the shared object; so is the weather of a
# moment, since the skies are no part of what is integrated. Arrays have a last axis of one, for
# states side by side. Outs are put in the order top, walls, base.
import ctypes

import numpy as np
from scipy.sparse import csr_matrix, identity

SOILS, LAYERS, RINGS = 15, 5, 3
PROTEIN, SLOW, LIGNIN, TOP, WALL, BASE, GRAVITY = 1, 2, 3, 0, 1, 2, 9.80665
OUTSIDE = ('over vapour humid rho dry_rho air film radiant sun sky snow_resist snow_share rain wind '
           'ground:6 skin:15 soil_conduct soil_store capillary drain').split()
DECAY = ('death necromass humus sour airless cold_floor slow_mild starved nitrogen_half lag oxygen_half film_slope '
         'coldest best hottest lignin_best lignin_hottest wet_slope wet_offset grow grow_slow humus_slow '
         'grow_lignin humus_lignin grow_microbe humus_microbe microbe_c_to_n humus_c_to_n ammonia '
         'ammonia_hinders fresh_ph ripe_ph').split()
MEDIUM = 'activity_half dry_conduct least most diffusion air'.split()
# oxygen, water and dry mass a kg of carbon of the primary pools; protein's are its own, and lignin has
# cellulose with it
POOL_OXYGEN = np.array([32 / 12, 0, 32 / 12, 1.926 / 0.650])[:, None, None]
POOL_WATER = np.array([1.38, 0, 1.25, 0.542 / 0.650])[:, None, None]
POOL_DRY = np.array([1 / 0.42, 0, 1 / 0.45, 1 / 0.62])[:, None, None]


def vapour_enthalpy(over):
    return 2.501e6 + 1860.0 * over


def enthalpy(over, humid):
    return 1006.0 * over + humid * vapour_enthalpy(over)


def water_enthalpy(over):
    return 4186.0 * np.maximum(over, 0)


class Names:
    """numbers that lie in a row, by name; `name:6` is six of them"""

    def __init__(self, names, row):
        n = 0
        for name in names:
            name, _, many = name.partition(':')
            setattr(self, name, row[n:n + int(many)] if many else float(row[n]))
            n += int(many or 1)
        if n != len(row):
            raise SystemExit(f'rhs_parts.py: {len(row)} numbers where {n} were expected: a struct has changed')


class Parts:
    """Read once a season; `today` after midnights and deeds, `store` when pools followed clocks."""

    def __init__(self, lent):
        self.lent, self.so, self.cells = lent, lent.so, lent.cells
        self.count = 0
        self.moment = ctypes.c_double()
        sizes = np.zeros(5, np.int32)
        self.so.lent_sizes(lent.at(sizes))
        self.faces, self.outs, links, weather, laws = sizes
        self.weather_row = np.zeros(weather)
        self.fixed(links, laws)
        self.today()

    def fixed(self, links, laws):
        lent, cells, faces, outs = self.lent, self.cells, self.faces, self.outs
        face, out = np.zeros((faces, 5), np.int32), np.zeros((outs, 2), np.int32)
        link, below = np.zeros((links, 2), np.int32), np.zeros(cells, np.int32)
        real = np.zeros(2 * links + SOILS + 1 + cells + laws + len(MEDIUM) + 2)
        self.so.lent_fixed(*map(lent.at, (face, out, link, below, real)))
        shape, self.soil_m3, half, area, law, medium, rest = np.split(
            real, np.cumsum([2 * links, SOILS, 1, cells, laws, len(MEDIUM)]))
        shape, depth = shape.reshape(-1, 2).T
        self.soil_m3, self.area, self.soil_half = self.soil_m3[:, None], area[:, None], half[0]
        self.law, self.medium_law, (self.lag, self.heat) = Names(DECAY, law), Names(MEDIUM, medium), rest

        self.order = np.argsort(out[:, 1], kind='stable')
        self.out, self.side_of = out[self.order].T
        self.side = [slice(*np.searchsorted(self.side_of, (k, k + 1))) for k in (TOP, WALL, BASE)]
        a, b, before, after, upright = face.T
        self.upright, self.below = upright[:, None] > 0, below
        self.ends = np.concatenate([a, b, self.out])
        self.beyond = np.concatenate([before, after])
        self.incidence(a, b)
        self.bands(a, b)
        self.soil_network(link, shape, depth)

    def incidence(self, a, b):
        """sparse matrices that sum what faces, outs and drains carry into cells"""
        def sums(places, signs):
            at = np.concatenate(places)     # -1: into no cell
            sign = np.concatenate([np.full(len(p), s) for p, s in zip(places, signs)])
            return csr_matrix((sign[at >= 0], (at[at >= 0], np.flatnonzero(at >= 0))),
                              shape=(self.cells, len(at)))
        o = self.out
        self.into = sums([a, o], [-1.0, -1.0]) + sums([b, np.full_like(o, -1)], [1.0, 1.0])
        self.over_faces, self.around = self.into.T.tocsr(), abs(self.into)
        self.leaving, self.entering = sums([a, b, o], [1.0, 1.0, 1.0]), sums([o], [1.0])
        self.draining = sums([self.below], [1.0]) - identity(self.cells, format='csr')

    def bands(self, a, b):
        """where numbers lie in LAPACK's banded matrices, column after column: of the draught, lower half;
        of oxygen, with room for pivots"""
        self.wide = int(np.max(b - a))
        one, two, middle = self.wide + 1, 3 * self.wide + 1, 2 * self.wide
        self.air_middle, self.air_side = np.arange(self.cells) * one, a * one + (b - a)
        self.oxygen_middle = np.arange(self.cells) * two + middle
        self.ab, self.ba = b * two + middle - (b - a), a * two + middle + (b - a)

    def soil_network(self, link, shape, depth):
        """soil nodes by links, and links by what they lie between: soil nodes, ground, air"""
        (a, b), n = link.T, np.arange(len(link))
        ground = SOILS + np.where(depth > 1.99, LAYERS, LAYERS - 1 - a // RINGS)
        other = np.where(b >= 0, b, np.where(b == -1, ground, SOILS + LAYERS + 1))
        self.link_open, self.link_shape = b == -2, shape
        self.warming, self.link_between = np.zeros((SOILS, len(n))), np.zeros((len(n), SOILS + LAYERS + 2))
        self.warming[a, n] -= 1
        self.warming[b[b >= 0], n[b >= 0]] += 1
        self.link_between[n, a] += 1
        self.link_between[n, other] -= 1

    def today(self):
        face, out = np.zeros((6, self.faces, 1)), np.zeros((2, self.outs, 1))
        cell = np.zeros((7, self.cells, 1))
        self.so.lent_today(*map(self.lent.at, (face, out, cell)))
        self.face_area, self.face_a, self.face_b, self.per, self.before_per, self.after_per = face
        self.rise_a, self.rise_b = (GRAVITY * self.upright * d for d in (self.face_a, self.face_b))
        self.out_area, self.out_m = out[:, self.order]
        self.out_rise = GRAVITY * self.out_m * np.array([1.0, 0.0, -1.0])[self.side_of][:, None]
        self.volume, self.solid, self.ash, self.grain, self.hold, self.wet_slope, self.ice_slope = cell
        self.pores = (self.volume - self.solid) * 1000.0
        self.moment.value = np.nan      # the weather of any moment is to be read anew
        self.store()

    def store(self):
        got = np.zeros((27, self.cells, 1))
        self.so.lent_store(self.lent.at(got))
        self.clock0, m = got[:4], got[4:20].reshape(4, 4, self.cells, 1)
        self.now = m[:, 0], m[:, 1], 0.5 * m[:, 2], m[:, 3] / 6
        self.nitrogen_per, self.carbon, self.ph = got[22], got[25], got[26]
        self.pool_oxygen, self.pool_water, self.pool_dry = (
            np.repeat(fixed, self.cells, axis=1) for fixed in (POOL_OXYGEN, POOL_WATER, POOL_DRY))
        self.pool_oxygen[PROTEIN], self.pool_water[PROTEIN], self.pool_dry[PROTEIN] = got[20], got[21], got[23]
        law, enclosed = self.law, got[24]
        for pool in self.pool_oxygen, self.pool_water, self.pool_dry:
            pool[LIGNIN] += enclosed * (pool[SLOW] - pool[LIGNIN])
        self.grow_lignin = law.grow_lignin + enclosed * (law.grow_slow - law.grow_lignin)
        self.humus_lignin = law.humus_lignin + enclosed * (law.humus_slow - law.humus_lignin)

    def weather(self, t):
        """of a moment, and what follows from it alone; a method asks for the same moment many times"""
        if t == self.moment.value:
            return self.w
        self.moment.value = t
        self.so.lent_outside(ctypes.byref(self.moment), self.lent.at(self.weather_row))
        self.w = w = Names(OUTSIDE, self.weather_row)
        w.open, w.resist, w.sun_share, w.rain_share, w.vapour_resist = w.skin.reshape(3, 5).T
        w.enthalpy, w.water_enthalpy = enthalpy(w.over, w.humid), water_enthalpy(w.over)
        w.open_area = self.out_area * w.open[self.side_of][:, None]
        w.vapour_resist_of = w.vapour_resist[self.side_of][:, None]
        film = w.film + w.radiant
        w.top_resist = w.resist[TOP] + w.snow_resist + 1 / film
        w.wall_resist = w.resist[WALL] + 1 / film
        w.base_resist = w.resist[BASE] + self.soil_half / w.soil_conduct
        w.top_over = w.over + (w.sun * w.sun_share[TOP] * (1 - w.snow_share) + w.sky) / film
        w.rain_top = w.rain * w.rain_share[TOP] * self.area[self.out[self.side[TOP]]]
        w.soil_heat = w.soil_store * self.soil_m3
        g = w.soil_conduct * self.link_shape
        g[self.link_open] *= film / (film + w.soil_conduct / self.soil_half)
        w.soil_links = self.warming @ (g[:, None] * self.link_between)
        w.soil_around = np.append(w.ground, w.over)[:, None]
        return w
