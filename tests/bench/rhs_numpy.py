# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/rhs_numpy.py - the whole right-hand side of the season in NumPy and SciPy.
#
# The same equations as balance_fill (run/balance.c) for a pile of cells, written for arrays: fields
# are [cells, columns], several states of the same moment side by side, so that a matrix of
# differences is one call. What faces carry is summed into cells by sparse incidence matrices; the
# draught and oxygen are banded systems, those of several columns joined into one long band.
# race_numpy.py proves that it is the same.
import numpy as np
from scipy.linalg.lapack import dgbtrf, dgbtrs, dpbsv

from rhs_parts import SOILS, WALL, Parts, enthalpy, vapour_enthalpy, water_enthalpy

STATES, POOLS = 13, 4
HEAT, WATER, CLOCK, MICROBE, HUMUS, NITROGEN, SOUR, LIVING, DRY, OXYGEN = 0, 1, 2, 6, 7, 8, 9, 10, 11, 12
POSITIVE = [WATER, LIVING, NITROGEN, OXYGEN]
FAST, PROTEIN, SLOW, LIGNIN = range(POOLS)
PRESSURE = (7.910773220864599e+00, 4.405371606272332e+00, -1.224407428635585e+00,
            3.160029261295730e-01, -7.687481903963742e-02, 1.843287970454005e-02,
            -4.463378427604455e-03, 1.257311547180260e-03, -3.113722303777676e-04)
OXYGEN_OUTSIDE, OXYGEN_KG, OXYGEN_OVER_VAPOUR, DAY_S = 0.2095, 1.10489, 1.820 / 2.178, 86400.0
# oxygen, water and dry mass a kg of carbon of microbes, humus, acids
MADE_OXYGEN = np.array([1.414 / 0.531, 1.515 / 0.56, 32 / 12])
MADE_WATER = np.array([0.319 / 0.531, 0.405 / 0.56, 1.5])
MADE_DRY = np.array([1 / 0.531, 1 / 0.56, 2.5])

np.seterr(divide='ignore', invalid='ignore')


class Rates(Parts):
    """dy/dt at one state [unknowns] or several [unknowns, columns]; not a number where y is out of range"""

    # ---- what each cell is ----------------------------------------------------------------------
    def medium(self, heat, water, dry, oxygen):
        law = self.medium_law
        organic = dry - self.ash
        solid = 1202.0 * organic + 870.0 * self.ash
        warm_c = solid + 4186.0 * water
        above = np.maximum(heat, 0)
        over = 2 * above / (warm_c + np.sqrt(warm_c * warm_c + 8.6 * organic * above))
        liquid = np.ones_like(over)
        frozen = heat < 0
        if frozen.any():
            cold_c = solid + 2097.0 * water
            below = np.minimum(heat, 0)
            mid = cold_c * 0.5 + water * 333.5e3 + below
            root = np.sqrt(mid * mid - 2 * cold_c * below)
            cold = np.where(mid > 0, below / (mid + root), (mid - root) / (2 * cold_c))
            over = np.where(frozen, cold, over)
            liquid = np.where(frozen, 0.5 / (0.5 - cold), liquid)
        u = water / dry
        wet = u * u * np.sqrt(u)
        s = (over - 22.5) * (1 / 72.5)
        log_p = PRESSURE[8] * s + PRESSURE[7]
        for a in PRESSURE[6::-1]:
            log_p = log_p * s + a
        p = wet / (wet + law.activity_half ** 2.5) * np.exp(log_p)
        rest = law.air - p
        humid = 0.621945 * p / rest
        dry_rho = rest / (287.042 * (over + 273.15))
        rho = dry_rho * (1 + humid + (12.011 / 28.96) * (OXYGEN_OUTSIDE - oxygen))
        e = 1 - (self.solid + water * 1e-3) / self.volume
        e = 0.5 * (e + np.sqrt(e * e + 1e-4))
        dense = 1 - e
        open_m2 = law.least + 1 / (dense * dense / (self.grain * e * e * e) + 1 / law.most)
        mobility = open_m2 / (1.71057576e-5 + over * (3.98373016e-8 + over * (1.51623377e-10 - over * 9.59596e-12)))
        diffusive = (law.diffusion * (2.178e-5 * 101325) / law.air * e * e * dry_rho *
                     (1.00007135 + over * (6.6267778e-3 + over * 9.65332e-6)))
        conduct = law.dry_conduct + water * (self.wet_slope * liquid + self.ice_slope * (1 - liquid))
        return over, liquid, u, p / law.air, humid, dry_rho, rho, mobility, diffusive, conduct

    # ---- life -----------------------------------------------------------------------------------
    def cardinal(self, over, best, hottest):
        coldest = self.law.coldest
        up, span = over - coldest, best - coldest
        f = ((over - hottest) * up * up /
             (span * (span * (over - best) - (best - hottest) * (best + coldest - 2 * over))))
        return np.where((over > coldest) & (over < hottest), f, 0)

    def potential(self, over, liquid, water, dry, wet, s):
        """per second in full air: paces and carbon of the pools; what microbes (all, living), humus and acids
        gain; oxygen; ammonia"""
        law, nitrogen, living = self.law, s[NITROGEN], s[LIVING]
        half = law.nitrogen_half * self.carbon + 1e-15
        factor = nitrogen / (nitrogen + half)
        free = nitrogen / (1 + np.exp((0.09018 + 2729.92 / (over + 273.15) - self.ph) * 2.302585092994046))
        warm = self.cardinal(over, law.best, law.hottest)
        mild = self.cardinal(over, law.lignin_best, law.lignin_hottest)
        cool = np.where(over < law.best, law.cold_floor * (1 - warm), 0)
        common = liquid / ((1 + np.exp(law.wet_offset - law.wet_slope * wet)) * DAY_S)
        fed = law.starved + (1 - law.starved) * factor
        hinders = water * law.ammonia_hinders
        work = common * fed * living / (living + law.lag * self.carbon + 1e-15) * hinders / (hinders + free)
        slow = warm + law.slow_mild * (mild - warm)
        pace = np.stack([work * (warm + cool), work * warm, work * slow, common * fed * mild])
        m0, m1, m2, m3 = self.now
        th = s[CLOCK:CLOCK + POOLS] - self.clock0
        carbon = pace * (m0 - th * (m1 - th * (m2 - th * m3)))
        slow *= common
        dying, eaten, humus, sour = (slow * rate * kg for rate, kg in
                                     ((law.death, living), (law.necromass, s[MICROBE] - living),
                                      (law.humus, s[HUMUS]), (law.sour, s[SOUR])))
        grown = factor * (law.grow * (carbon[FAST] + carbon[PROTEIN] + sour) + law.grow_slow * carbon[SLOW] +
                          self.grow_lignin * carbon[LIGNIN] + law.grow_microbe * eaten)
        humified = factor * (law.humus_slow * carbon[SLOW] + self.humus_lignin * carbon[LIGNIN] +
                             law.humus_microbe * eaten)
        oxygen = ((self.pool_oxygen * carbon).sum(axis=0) + MADE_OXYGEN[0] * (eaten - grown) +
                  MADE_OXYGEN[1] * (humus - humified) + MADE_OXYGEN[2] * sour)
        ammonia = law.ammonia * free * liquid * (1 / DAY_S)
        return pace, carbon, grown - eaten, grown - dying, humified - humus, sour, oxygen, ammonia

    def live(self, pace, carbon, microbe, living, humus, sour, ammonia, air, rate):
        law = self.law
        airless = law.airless * (1 - air)
        by_pool = np.stack([air + airless, air, air + airless, air])
        rate[CLOCK:CLOCK + POOLS] = pace * by_pool
        souring = airless * (carbon[FAST] + carbon[SLOW])
        carbon = carbon * by_pool
        made = microbe * air, humus * air, souring - sour * air
        oxygen, water, dry = ((per * carbon).sum(axis=0) - m[0] * made[0] - m[1] * made[1] - m[2] * made[2]
                              for per, m in ((self.pool_oxygen, MADE_OXYGEN), (self.pool_water, MADE_WATER),
                                             (self.pool_dry, MADE_DRY)))
        rate[HEAT] = self.heat * oxygen
        rate[WATER] = water
        rate[MICROBE], rate[HUMUS], rate[SOUR] = made
        rate[LIVING] = living * air
        rate[NITROGEN] = (self.nitrogen_per * carbon[PROTEIN] - made[0] * (1 / law.microbe_c_to_n) -
                          made[1] * (1 / law.humus_c_to_n) - ammonia)
        rate[DRY] = -dry

    # ---- draught and oxygen ---------------------------------------------------------------------
    def draught(self, w, rho_a, rho_b, rho_o, g_face, g_out):
        """dry air over faces from a to b, and out"""
        push = np.concatenate([(w.rho - rho_a) * self.rise_a + (w.rho - rho_b) * self.rise_b,
                               (w.rho - rho_o) * self.out_rise])
        g = np.concatenate([g_face, g_out])
        columns = g.shape[1]
        matrix = np.zeros((columns, self.cells * (self.wide + 1)))
        matrix[:, self.air_middle] = (self.around @ g).T
        matrix[:, self.air_side] = -g_face.T
        source = self.into @ (g * push)
        pressure = dpbsv(matrix.reshape(-1, self.wide + 1).T, source.T.ravel(), lower=1,
                         overwrite_ab=1, overwrite_b=1)[1].reshape(columns, -1).T
        return g * (push - self.over_faces @ pressure)

    def breathe(self, from_a, from_b, leave, enter, uptake, dilution, half, felt):
        """oxygen's share in each cell, and how far life has what it could use"""
        columns = uptake.shape[1]
        wide, leaves = self.wide, self.leaving @ np.concatenate([from_a, from_b, leave])
        matrix = np.zeros((columns, self.cells * (3 * wide + 1)))
        matrix[:, self.oxygen_middle] = (leaves + uptake * dilution / ((half + dilution * felt) * OXYGEN_KG)).T
        matrix[:, self.ab], matrix[:, self.ba] = -from_b.T, -from_a.T
        lu, turn, _ = dgbtrf(matrix.reshape(-1, 3 * wide + 1).T, wide, wide, overwrite_ab=1)

        def solve(rest):
            return dgbtrs(lu, wide, wide, rest.T.ravel(), turn, overwrite_b=1)[0].reshape(columns, -1).T
        enter = enter * OXYGEN_OUTSIDE
        y = solve(self.entering @ enter)
        ends = y[self.ends]
        a, b, o = ends[:self.faces], ends[self.faces:2 * self.faces], ends[2 * self.faces:]
        moist = dilution * y
        y = np.maximum(y + solve(self.into @ np.concatenate([from_a * a - from_b * b, leave * o - enter]) -
                                 uptake * moist / ((half + moist) * OXYGEN_KG)), 0.1 * y)
        moist = dilution * y
        return y, moist / (half + moist)

    # ---- heat and water -------------------------------------------------------------------------
    def carried(self, flow, x_a, x_b, x):
        """fields of the air that crosses a face (van Leer's limit)"""
        beyond = x[:, self.beyond]
        forward = flow > 0
        here = np.where(forward, x_a, x_b)
        behind = (here - np.where(forward, beyond[:, :self.faces], beyond[:, self.faces:])) * np.where(
            forward, self.before_per, self.after_per)
        ahead = (np.where(forward, x_b, x_a) - here) * self.per
        both = behind * ahead
        slope = np.where(both > 0, 2 * both / (behind + ahead), 0)
        return here + slope * np.where(forward, self.face_a, self.face_b)

    def surfaces(self, w, over, conduct, room, heat, water):
        """what films, sky, sun and rain do, added to heat and water that leave; heat to the soil's top"""
        top, wall, base = self.side
        inner = self.out_m / conduct
        rain = w.rain_top * room[self.out[top]]
        heat[top] += (self.out_area[top] / (inner[top] + w.top_resist) * (over[top] - w.top_over) -
                      rain * w.water_enthalpy)
        water[top] -= rain
        heat[wall] += self.out_area[wall] / (inner[wall] + w.wall_resist) * (over[wall] - w.over)
        into_soil = self.out_area[base] / (inner[base] + w.base_resist) * (over[base] - self.soil_over[SOILS - 1])
        heat[base] += into_soil
        return into_soil.sum(axis=0)

    def drain(self, w, over, liquid, water, nitrogen, room):
        x = water / self.hold
        x *= x * x
        x *= x
        free = w.drain * x * x
        below = np.concatenate([room, np.ones((1, room.shape[1]))])[self.below]
        rate = free / (1 + free * 100) * self.area * liquid * liquid * liquid * below
        return np.stack([rate * water_enthalpy(over), rate, rate * nitrogen / water], axis=1)

    # ---- all of it ------------------------------------------------------------------------------
    def __call__(self, t, y):
        shape, y = y.shape, y.reshape(len(y), -1)
        columns, faces, cells = y.shape[1], self.faces, self.cells
        self.count += columns
        w = self.weather(t)
        s = np.ascontiguousarray(y[SOILS:].reshape(-1, STATES, columns)[:cells].swapaxes(0, 1))
        water, dry = s[WATER], s[DRY]
        self.soil_over = y[:SOILS] / w.soil_heat
        over, liquid, u, vapour, humid, dry_rho, rho, mobility, diffusive, conduct = self.medium(
            s[HEAT], water, dry, s[OXYGEN])
        wet = water / (water + dry)
        pace, carbon, microbe, living, humus, sour, uptake, ammonia = self.potential(over, liquid, water, dry, wet, s)
        half = self.law.oxygen_half * np.exp(self.law.film_slope * (wet - 0.55))
        capillary = w.capillary / 2.25 * u * u * liquid * dry / self.volume

        fields = np.stack([over, humid, dry_rho, rho, mobility, diffusive, conduct, capillary, u])
        ends = fields[:, self.ends]
        at_a, at_b, at_o = ends[:, :faces], ends[:, faces:2 * faces], ends[:, 2 * faces:]
        # mobility, diffusivity, conductivity and capillarity over faces: two halves in series
        both = self.face_a * at_b[4:8] + self.face_b * at_a[4:8]
        g_air, diffuse, conduction, seep = self.face_area * at_a[4:8] * at_b[4:8] / np.where(both > 0, both, 1)
        g_air = g_air * 0.5 * (at_a[2] + at_b[2])
        over_o, humid_o = at_o[:2]
        wall = self.side[WALL]
        g_out = w.open_area * at_o[2] * at_o[4] / self.out_m
        flow = self.draught(w, at_a[3], at_b[3], at_o[3], g_air, g_out)
        swap = np.zeros_like(g_out)
        swap[wall] = g_out[wall] * self.out_m[wall] * w.wind
        ahead, back = np.maximum(flow, 0), np.maximum(-flow, 0)
        leave, enter = swap + ahead[faces:], swap + back[faces:]
        flow = flow[:faces]

        outward = self.out_m / at_o[5] + w.vapour_resist_of
        g = OXYGEN_OVER_VAPOUR * diffuse
        g_o = OXYGEN_OVER_VAPOUR * w.open_area / outward
        share, factor = self.breathe(g + ahead[:faces], g + back[:faces], g_o + leave, g_o + enter,
                                     uptake, 1 - vapour, half, s[OXYGEN])

        rate = np.empty_like(s)
        self.live(pace, carbon, microbe, living, humus, sour, ammonia, factor, rate)
        rate[OXYGEN] = (share - s[OXYGEN]) * (1 / self.lag)

        carry = np.empty((faces + self.outs, 2, columns))
        over_f, humid_f = self.carried(flow, at_a[:2], at_b[:2], fields[:2])
        diffusing = diffuse * (at_a[1] - at_b[1])
        seeping = seep * (at_a[8] - at_b[8])
        carry[:faces, 0] = (conduction * (at_a[0] - at_b[0]) + flow * enthalpy(over_f, humid_f) +
                            diffusing * vapour_enthalpy(0.5 * (at_a[0] + at_b[0])) +
                            seeping * water_enthalpy(np.where(seeping > 0, at_a[0], at_b[0])))
        carry[:faces, 1] = diffusing + flow * humid_f + seeping
        vapour_out = w.open_area / (outward + 1006.0 * 0.90 / w.film) * (humid_o - w.humid)
        carry[faces:, 0] = (leave * enthalpy(over_o, humid_o) - enter * w.enthalpy +
                            vapour_out * vapour_enthalpy(0.5 * (over_o + w.over)))
        carry[faces:, 1] = leave * humid_o - enter * w.humid + vapour_out
        fill = water / self.pores
        fill *= fill
        fill *= fill
        room = np.maximum(1 - fill * fill, 0)
        soil = w.soil_links[:, :SOILS] @ self.soil_over + w.soil_links[:, SOILS:] @ w.soil_around
        soil[SOILS - 1] += self.surfaces(w, over_o, at_o[6], room, carry[faces:, 0], carry[faces:, 1])
        moved = (self.into @ carry.reshape(faces + self.outs, -1)).reshape(cells, 2, columns)
        drained = (self.draining @ self.drain(w, over, liquid, water, s[NITROGEN], room).reshape(cells, -1)
                   ).reshape(cells, 3, columns)
        rate[HEAT] += moved[:, 0] + drained[:, 0]
        rate[WATER] += moved[:, 1] + drained[:, 1]
        rate[NITROGEN] += drained[:, 2]

        whole = np.zeros_like(y)
        whole[:SOILS] = soil
        whole[SOILS:].reshape(-1, STATES, columns)[:cells] = rate.swapaxes(0, 1)
        good = (s[POSITIVE].min(axis=(0, 1)) > 0) & (vapour.max(axis=0) < 0.9)
        if not good.all():
            whole[:, ~good] = np.nan
        return whole.reshape(shape)
