# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/count.py - operations and bytes of a season, counted instruction by instruction.
#
#     python3 count.py BENCH SCENARIO one|four
#
# valgrind's callgrind tells how often each instruction of the season ran, objdump what it is. Counted
# are additions, subtractions, multiplications, divisions, roots, least and greatest of double numbers,
# each as many times as it has lanes, and the bytes of double numbers that loads and stores move.
# Prints name and value, tab between; then source files by their share of instructions.
import collections
import os
import re
import subprocess
import sys

FLOP = re.compile(r'^v?(add|sub|mul|div|sqrt|min|max)(sd|pd)$')
MOVE = re.compile(r'^v?(movsd|movq|movhpd|movlpd|movddup|movapd|movupd|movaps|movups|movdqa|movdqu|'
                  r'broadcastsd|(add|sub|mul|div|sqrt|min|max)(sd|pd)|(and|andn|or|xor)pd|ucomisd|'
                  r'comisd|cmp\w*(sd|pd)|unpck\w*pd|blendv?pd|cvt\w+|p\w+|insertf128|extractf128)$')
SINGLE = re.compile(r'(sd|movq|movhpd|movlpd|movddup)$')


def width(name, operands):
    if SINGLE.search(name):
        return 1
    return 4 if '%ymm' in operands else 2


def instructions(binary):
    """address -> (flops, bytes loaded, bytes stored)"""
    text = subprocess.run(['objdump', '-d', '--no-show-raw-insn', binary], check=True,
                          capture_output=True, text=True).stdout
    found = {}
    for line in text.splitlines():
        m = re.match(r'\s+([0-9a-f]+):\s+(\S+)\s*(.*)$', line)
        if not m:
            continue
        name, operands = m.group(2), m.group(3).split('#')[0].strip()
        lanes = width(name, operands)
        flops = lanes if FLOP.match(name) else 0
        loaded = stored = 0
        if '(' in operands and ('%ymm' in operands or ('%xmm' in operands and MOVE.match(name))):
            to_memory = operands.endswith(')')
            loaded, stored = (0, 8 * lanes) if to_memory else (8 * lanes, 0)
        found[int(m.group(1), 16)] = (flops, loaded, stored)
    return found


def main():
    binary, scenario, lanes = sys.argv[1:4]
    out = f'build/race/callgrind.{lanes}'
    entry = 'season_run_x4' if lanes == 'four' else 'season_run_x1_avx2'
    env = dict(os.environ, LC_ALL='C')
    run = subprocess.run(['valgrind', '-q', '--tool=callgrind', '--dump-instr=yes', '--compress-pos=no',
                          '--compress-strings=no', '--collect-atstart=no', f'--toggle-collect={entry}',
                          f'--callgrind-out-file={out}', binary, 'count', scenario, lanes],
                         check=True, capture_output=True, text=True, env=env)
    attempts, cells = map(int, run.stdout.split())
    known = instructions(binary)
    total = collections.Counter()
    by_file = collections.Counter()
    source, skip = '', False
    with open(out) as lines:
        for line in lines:
            if line.startswith(('fl=', 'fi=', 'fe=')):
                source = line.split('=', 1)[1].strip()
            elif line.startswith('calls='):
                skip = True
            elif line.startswith('0x'):
                if skip:
                    skip = False
                    continue
                word = line.split()
                count = int(word[2])
                if int(word[0], 16) not in known:   # the C library's memset counts each byte
                    continue
                flops, loaded, stored = known[int(word[0], 16)]
                total['instructions'] += count
                total['operations'] += flops * count
                total['bytes loaded'] += loaded * count
                total['bytes stored'] += stored * count
                by_file['/'.join(source.split('/')[-2:])] += count
    members = 4 if lanes == 'four' else 1
    print(f'attempts\t{attempts}\ncells\t{cells}')
    for name in ('instructions', 'operations', 'bytes loaded', 'bytes stored'):
        print(f'{name}\t{total[name] / (attempts * cells * members):.1f}')
    for name, count in by_file.most_common(10):
        print(f'file {name}\t{count / total["instructions"]:.4f}')


main()
