# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/page.py - docs/performance.md from what the bench measured.
#
#     python3 page.py FOLDER PAGE
import collections
import math
import os
import re
import statistics
import subprocess
import sys

OURS, FOUR, EIGHT = 'ours', 'ours, four lanes, a member', 'ours, eight lanes, a member'
SLOPES, PAIRS = 'CVODE, our slopes', 'CVODE, differences, two unknowns a node'
OWN = 'CVODE, its own differences'
NUMPY = 'SciPy BDF, right-hand side in NumPy'
NUMPY_AT_ONCE = NUMPY + ', columns at once'
ASKED_MS, ASKED_FOUR_MS = 60, 25    # of one member's season, of a member's among four


def rows(path):
    if not os.path.exists(path):
        return []
    with open(path) as lines:
        return [line.rstrip('\n').split('\t') for line in lines if line.strip()]


class Race:
    """runs of one file: (contender, setting) -> times by round, error, right-hand sides"""

    def __init__(self, path):
        self.took = collections.OrderedDict()
        self.error, self.worst, self.rates = {}, {}, {}
        for name, setting, rates, took, rms, worst in rows(path):
            key = name, float(setting)
            self.took.setdefault(key, []).append(1e3 * float(took))
            self.error[key], self.worst[key] = float(rms), float(worst)
            self.rates[key] = int(rates)

    def names(self):
        return list(dict.fromkeys(name for name, _ in self.took))

    def keys(self, name):
        return [key for key in self.took if key[0] == name]

    def median(self, key):
        return statistics.median(self.took[key])

    def no_worse(self, who, error):
        """the fastest setting of ours whose error is no larger"""
        fit = [key for key in self.keys(who) if self.error[key] <= error]
        return min(fit, key=self.median) if fit else None

    def ratios(self, key, who):
        """a rival's time over ours at no larger an error, round by round"""
        ours = self.no_worse(who, self.error[key])
        return [a / b for a, b in zip(self.took[key], self.took[ours])] if ours else []

    def least(self, names, who):
        """the rival's best: its least ratio to ours, over its settings that are near our errors"""
        loosest = max(self.error[key] for key in self.keys(OURS))
        found = [(statistics.median(self.ratios(key, who)), key) for name in names
                 for key in self.keys(name) if self.error[key] <= 2 * loosest and self.ratios(key, who)]
        return min(found) if found else (math.nan, None)


def number(x):
    return f'{x:.3g}' if x < 100 else f'{x:.0f}'


def spread(values):
    middle = number(statistics.median(values))
    return middle if len(values) < 2 else f'{middle} ({number(min(values))}–{number(max(values))})'


def table(head, lines):
    out = ['| ' + ' | '.join(head) + ' |', '|' + ' --- |' * len(head)]
    return '\n'.join(out + ['| ' + ' | '.join(line) + ' |' for line in lines]) + '\n'


def race_table(race):
    lines = []
    wide = [who for who in (FOUR, EIGHT) if race.keys(who)] # those that the processor has
    for key in race.took:
        line = [key[0], f'{key[1]:g}' + (' K' if key[0].startswith('ours') else ''),
                str(race.rates[key]), spread(race.took[key]), f'{race.error[key]:.4f}',
                f'{race.worst[key]:.2f}', str(len(race.took[key]))]
        for who in [OURS] + wide:
            ratios = race.ratios(key, who) if not key[0].startswith('ours') else []
            line.append(spread(ratios) if ratios else '')
        lines.append(line)
    return table(['contender', 'tolerance', 'right-hand sides', 'ms', 'rms °C', 'worst °C', 'rounds',
                  'over ours'] + [f'over ours in {who.split()[1]} lanes' for who in wide], lines)


def race_points(race, path):
    with open(path, 'w') as out:
        for name in race.names():
            out.write(f'"{name}"\n')
            for key in sorted(race.keys(name), key=lambda k: race.error[k]):
                out.write(f'{race.error[key]} {race.median(key)}\n')
            out.write('\n\n')


def slope(points):
    """exponent b of y = a x^b, least squares on logarithms"""
    x = [math.log(p[0]) for p in points]
    y = [math.log(p[1]) for p in points]
    mx, my = statistics.mean(x), statistics.mean(y)
    return sum((a - mx) * (b - my) for a, b in zip(x, y)) / sum((a - mx) ** 2 for a in x)


class Growth:
    def __init__(self, path):
        self.by = collections.defaultdict(lambda: collections.defaultdict(list))
        for what, many, took, peak, more, _ in rows(path):
            self.by[what][float(many)].append((float(took), float(peak), float(more)))

    def points(self, what):
        """how many, s (median), MB (least), attempts or processor s (median)"""
        return [(many, statistics.median(r[0] for r in got), min(r[1] for r in got),
                 statistics.median(r[2] for r in got)) for many, got in sorted(self.by[what].items())]

    def leave(self, folder):
        for what in ('cells', 'days', 'members'):
            with open(f'{folder}/points-{what}.dat', 'w') as out:
                for point in self.points(what):
                    out.write(' '.join(f'{x:g}' for x in point) + '\n')


def machine():
    """the machine in general words"""
    text = open('/proc/cpuinfo').read()
    model = re.search(r'model name\s*:\s*(.*)', text)
    compiler = subprocess.run(['cc', '--version'], capture_output=True, text=True).stdout.split('\n')[0]
    return (f'{os.cpu_count()} processors ({model.group(1) if model else "of a kind unknown"}'
            f'{", a virtual machine" if "hypervisor" in text else ""}), {compiler}')


def met(good):
    return 'met' if good else '**missed**'


def asked(season, short, growth):
    lines = []

    def add(what, want, got, good):
        lines.append([what, want, got, met(good)])

    usual, four, eight = (OURS, 0.16), (FOUR, 0.16), (EIGHT, 0.16)
    ms = season.median(usual)
    add('120 days, turned every week', f'{ASKED_MS} ms', spread(season.took[usual]) + ' ms', ms <= ASKED_MS)
    if four in season.took:
        add('a member of four alike in four lanes', f'{ASKED_FOUR_MS} ms', spread(season.took[four]) + ' ms',
            season.median(four) <= ASKED_FOUR_MS)
    if eight in season.took:
        add('a member of eight alike in eight lanes (asked was of four)', f'{ASKED_FOUR_MS} ms',
            spread(season.took[eight]) + ' ms', season.median(eight) <= ASKED_FOUR_MS)
    for name, want in ((SLOPES, 1.2), (PAIRS, 3), (OWN, 3)):
        ratio, key = season.least([name], OURS)
        if key:
            add(f'{name}, at no larger an error; its best setting', f'{want:g} times ours',
                f'{spread(season.ratios(key, OURS))} (at {key[1]:g})', ratio >= want)
    ratio, key = season.least([SLOPES, PAIRS], FOUR)
    if key:
        add('the better CVODE against a member of four alike', '4 times ours',
            f'{spread(season.ratios(key, FOUR))} ({key[0]}, {key[1]:g})', ratio >= 4)
    scipy = [name for name in short.names() if name.startswith('SciPy')]
    for who, names in (('SciPy, right-hand side in NumPy, a state at a time', [NUMPY]),
                       ('the same, columns of its matrix of differences at once, which is SciPy at its best',
                        [NUMPY_AT_ONCE]),
                       ('SciPy with our compiled right-hand side (asked was one in NumPy)',
                        [name for name in scipy if name not in (NUMPY, NUMPY_AT_ONCE)])):
        ratio, key = short.least(names, OURS)
        if key:
            add(who, '300 times ours', f'{spread(short.ratios(key, OURS))} ({key[0][6:].split(",")[0]}, '
                f'{key[1]:g})', ratio >= 300)
    thousand = growth.points('thousand')
    if thousand:
        add('1000 possible piles, two threads', '20 s',
            f'{thousand[0][1]:.0f} s by the clock, {thousand[0][2]:.0f} MB; {thousand[0][3]:.0f} s of the processor',
            thousand[0][1] <= 20)
    for what, members in (('threads of many', '256 possible piles'),
                          ('threads', '64, of which the last leave lanes idle')):
        one, two = growth.by[what].get(1, []), growth.by[what].get(2, [])
        if one and two:
            share = [a[0] / b[0] / 2 for a, b in zip(one, two)]
            add(f'parallel efficiency of two threads, {members}', '0.9', spread(share),
                statistics.median(share) >= 0.9)
    return table(['what', 'asked', 'measured: median (least–most)', ''], lines)


def growth_text(growth):
    text = []
    cells = growth.points('cells')
    text.append(table(['cells', 's for two days', 'attempts', 'ms an attempt', 'µs a cell and attempt', 'MB'],
                      [[f'{n:.0f}', number(s), f'{a:.0f}', number(1e3 * s / a), number(1e6 * s / a / n),
                        f'{mb:.1f}'] for n, s, mb, a in cells]))

    def exponents(points):
        return (f'time as cells^{slope([(p[0], p[1]) for p in points]):.2f}, an attempt as '
                f'cells^{slope([(p[0], p[1] / p[3]) for p in points]):.2f}, attempts as '
                f'cells^{slope([(p[0], p[3]) for p in points]):.2f}')
    half = [p for p in cells if p[0] <= 400], [p for p in cells if p[0] >= 300]
    text.append('Fitted: ' + '; '.join(f'{p[0][0]:.0f} to {p[-1][0]:.0f} cells: {exponents(p)}'
                                       for p in half if len(p) > 2) + '.\n')
    for what in [what for what in growth.by if what.startswith('refused')]:
        text.append(f'**{int(max(growth.by[what]))} cells don\'t run**: the season is {what}. The limit of cells '
                    'itself is 20 000.\n')
    days = growth.points('days')
    text.append(table(['days', 's', 'attempts', 'MB'], [[f'{n:.0f}', number(s), f'{a:.0f}', f'{mb:.1f}']
                                                      for n, s, mb, a in days]))
    text.append(f'Fitted: time as days^{slope([p[:2] for p in days]):.2f}.\n')
    members = growth.points('members')
    text.append(table(['members', 's of the processor', 'ms a member', 'MB'],
                      [[f'{n:.0f}', number(cpu), number(1e3 * cpu / n), f'{mb:.1f}']
                       for n, _, mb, cpu in members]))
    text.append(f'Fitted: time as members^{slope([(p[0], p[3]) for p in members]):.2f}, memory as '
                f'members^{slope([(p[0], p[2]) for p in members]):.2f}.\n')
    text.append(table(['members', 'threads', 's by the clock', 's of the processor'],
                      [[members, f'{n:.0f}', spread([r[0] for r in got]), spread([r[2] for r in got])]
                       for what, members in (('threads', '64'), ('threads of many', '256'))
                       for n, got in sorted(growth.by[what].items())]))
    alone, together = growth.by['alone'].get(16), growth.by['beside'].get(16)
    if alone and together:
        gain = [a[2] / b[2] for a, b in zip(alone, together)]
        text.append(f'Sixteen members one after another take {spread([r[2] for r in alone])} s of the '
                    f'processor, {spread(gain)} times what they take side by side: eight where the processor\n'
                    'has AVX-512, else four.\n')
    return '\n'.join(text)


def roofline(folder, season):
    peaks = {name: float(value) for name, value in rows(f'{folder}/peaks.tsv')}
    lines, files = [], []
    most = peaks['multiply-adds in vectors of four, two operations each']
    for lanes, key, asked_ms in (('one', (OURS, 0.16), ASKED_MS), ('four', (FOUR, 0.16), ASKED_FOUR_MS)):
        got = dict(rows(f'{folder}/count-{lanes}.tsv'))
        if not got or key not in season.took:
            continue
        cells = int(got['cells'])
        operations = float(got['operations'])
        moved = float(got['bytes loaded']) + float(got['bytes stored'])
        attempts = season.rates[key] / 4
        ns = 1e6 * season.median(key) / attempts / cells
        first, second = (min(most, operations / moved * peaks[f'triad in the {which} cache, bytes'])
                         for which in ('first', 'second'))
        lines.append([lanes, number(float(got['instructions'])), number(operations), number(moved),
                      f'{operations / moved:.2f}', number(ns), f'{operations / ns:.2f}',
                      f'{1e-9 * first:.1f}', f'{1e-9 * second:.1f}',
                      f'{1e-6 * operations * attempts * cells / asked_ms:.1f}'])
        files.append((lanes, [(k[5:], float(v)) for k, v in got.items() if k.startswith('file ')]))
    text = [table(['what a core can do at best', 'a second'],
                  [[name, f'{1e-9 * value:.1f} thousand million'] for name, value in peaks.items()])]
    if not lines:
        return '\n'.join(text) + '\n(No valgrind: operations were not counted.)\n'
    text.append(table(['lanes', 'instructions', 'operations', 'bytes', 'operations a byte', 'ns',
                       'thousand million operations a second', 'at most, from the first cache',
                       'at most, from the second', 'asked for'], lines))
    text.append('Each a member, cell and attempt (four right-hand sides, one matrix, four solutions), counted in the '
                'copies for AVX2; one lane\'s time is of the copy that runs here. '
                '"At most" is the lower of the peak of multiply-adds in vectors of four and of what that cache delivers for so many '
                'operations a byte; "asked for" is what the milliseconds asked of a member would take, with as many '
                'operations. All that one member works on (half a megabyte) is too much for the first '
                'cache, what four do (two) is more than many a second one.\n')
    for lanes, shares in files:
        text.append(f'Instructions by source file, {lanes} lane{"s" if lanes == "four" else ""}: ' +
                    ', '.join(f'{name} {100 * share:.0f} %' for name, share in shares[:8]) + '.\n')
    return '\n'.join(text)


def numpy_text(numpy, season):
    if not numpy:
        return ''
    compiled, array, many = ([float(row[k]) for row in numpy] for k in range(3))
    slower, slower_many = ([b / a for a, b in zip(compiled, each)] for each in (array, many))
    sides = season.rates[OURS, 0.16] * 1e-3 * statistics.median(compiled)
    worst, states, coldest, hottest = numpy[0][3:]
    return (f'\nA compiled right-hand side takes {spread(compiled)} µs, called from Python. So right-hand sides '
            f'alone are about {sides:.0f} ms of our {season.median((OURS, 0.16)):.0f} ms for the whole season.\n'
            f'\nIn NumPy it takes {spread(array)} µs, {spread(slower)} times as long; of a hundred states at once '
            f'{spread(many)} µs each, {spread(slower_many)} times as long. The two agree: at {states} moments of '
            f'the 120 days, with cells from {coldest} to {hottest} °C, and at four states beside each, all rates are '
            f'within {worst} of the largest of their kind. The bench stops where that exceeds 1e-9.\n')


PAGE = '''# What a season costs

Made by `make bench` (`tests/bench/page.py`) from its own measurements; don't edit. {machine}. One-minute load
of the machine at four moments of the run: {load}; on two processors, what is above 2 means that something
else wanted them. Times are of the processor, without reading and telling, medians with least and most
in brackets; only threads, and the thousand, go by the clock on the wall. Contenders take turns within a round, and ratios are
within a round, so that load hits all alike. `numerics.md` has how the errors were found. A core here does at best {core} thousand
million operations a second in vectors of four; milliseconds go with that from machine to machine, ratios hardly.

## What was asked

{asked}
"At no larger an error": against our fastest setting whose error isn't larger than the rival's; since our
settings are few, that is never in our favour. The least ratio over a rival's tolerances stands for it, so
each rival is at its best; left out are tolerances at which its error is more than twice that of our loosest setting,
where the two aren't equally exact (the tables below have their ratios too).

## One season, ours and CVODE's

120 days, turned every week, 96 cells, 1167 unknowns. Error: every cell's temperature at every midnight
against CVODE at 1e-7, on the same right-hand side. CVODE with our slopes has the very matrix that
our steps use, but for cells about to thaw; with differences of two unknowns a node it has heat and water of each cell coupled; its own
differences are what one gets without any work. Four lanes: the same member four times, a quarter of the
time; eight lanes, where the processor has AVX-512: eight times, an eighth. The digits are those of one alone.

{season}
![time against error](performance-race.png)

## Ten days, with SciPy and R

The same pile for ten days, turned once. SciPy's BDF and LSODA and deSolve's lsoda and vode get **our compiled
right-hand side** through a shared object (`tests/bench/lent.c`), so what is timed is the method and
its own arithmetic, not a right-hand side in Python or R: generous to both. Two more of SciPy's BDF have the
same equations **in NumPy** (`tests/bench/rhs_numpy.py`: arrays of cells and faces, sparse incidence matrices,
LAPACK's banded solvers; only the weather of a moment, and what deeds, settling and clocks leave, come
compiled), either a state at a time or all columns of a matrix of differences at once; LSODA, which takes four times
as many right-hand sides one by one, isn't tried with them. SciPy's methods go on
over midnight with their history, as CVODE does; deSolve's begin again, since they can't. Jacobians are theirs, by
differences: in a band as wide as the numbering needs (83 unknowns to either side), or, in BDF, of cells that touch
(a full band there was never near), or, thinner still and so with NumPy too, where of what touches only heat, water
and oxygen take notice. What has one or two rounds was tried in the first only.

{short}{numpy}
## How cost grows

{growth}
![growth](performance-growth.png)

Cells: the same pile in meshes from thick to very fine, two days. A finer mesh costs three times over: more cells,
a wider band, and more steps where thin cells thaw or dry each at its own moment. From 20 columns on every second cell
is eliminated beforehand (`pile/lattice`).

## What a core could do

{roof}
'''


def main():
    folder, page = sys.argv[1:3]
    season, short = Race(f'{folder}/season.tsv'), Race(f'{folder}/short.tsv')
    growth = Growth(f'{folder}/growth.tsv')
    race_points(season, f'{folder}/points-season.dat')
    race_points(short, f'{folder}/points-short.dat')
    growth.leave(folder)
    load = ', '.join(open(f'{folder}/load').read().split())
    numpy = rows(f'{folder}/numpy.tsv')
    peaks = dict(rows(f'{folder}/peaks.tsv'))
    core = f"{1e-9 * float(peaks['multiply-adds in vectors of four, two operations each']):.1f}"
    text = PAGE.format(numpy=numpy_text(numpy, season), machine=machine(), core=core, load=load, asked=asked(season, short, growth),
                       season=race_table(season), short=race_table(short), growth=growth_text(growth),
                       roof=roofline(folder, season))
    with open(page, 'w') as out:
        out.write(text)


main()
