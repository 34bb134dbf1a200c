# SPDX-License-Identifier: GPL-3.0-or-later
"""tests/proof/mutate.py - small changes of the program, one at a time: does a test notice?

    python3 tests/proof/mutate.py COMPILE LIBS COUNT SEED ROOM...

COMPILE is the command line for an object but for its source. Takes COUNT changes from the .c and .h
files of the rooms of model/, as many from each room, the same ones for the same SEED. What `make
mutants` built in build/mutants is linked anew with the changed file alone (for a header, with the
files that include it), and these run until one fails or takes far longer than it should: the
file's own tests, those of its room, those of other rooms that are done within QUICK seconds, SCRIPTS.

A change that doesn't compile is passed over for another one; one that leaves the assembly as it was
counts as the same program. Prints each survivor, then a table; ends with status 0, since survivors
are to be argued in docs/tests.md, not counted.
"""
import glob
import json
import os
import random
import re
import resource
import shutil
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor

BUILT, JOBS, QUICK, MEMORY = "build/mutants", 2, 3.0, 4 << 30
CVODE = ["-lsundials_cvode", "-lsundials_nvecserial", "-lsundials_sunmatrixband", "-lsundials_sunlinsolband"]
SCRIPTS = ["tests/cli/next.sh", "tests/cli/ics.sh"]

# what is found in a line, and what may stand there instead
CHANGES = [
    (r" < ", [" <= ", " > "]), (r" > ", [" >= ", " < "]), (r" <= ", [" < "]), (r" >= ", [" > "]),
    (r" == ", [" != "]), (r" != ", [" == "]), (r" && ", [" || "]), (r" \|\| ", [" && "]),
    (r" \+ ", [" - "]), (r" - ", [" + "]), (r" \* ", [" / "]), (r" / ", [" * "]),
    (r" \+= ", [" -= "]), (r" -= ", [" += "]), (r" \*= ", [" /= "]),
    (r"lane_less\((?=\w)", ["~lane_less("]), (r"lane_max\(", ["lane_min("]), (r"lane_min\(", ["lane_max("]),
    (r"\btrue\b", ["false"]), (r"\bfalse\b", ["true"]),
    (r"(?<![\w.])\d+(\.\d+)?(e-?\d+)?(?![\w.])", [None]),               # a number: 10 % or one more
    (r"^\s+[\w>.\[\]-]+(, [\w>.\[\]-]+)* [-+*/|&]?= [^;{}]*;$", [""]),    # a statement dropped
    (r"^\s+\w+\([^;{}]*\);$", [""]),
    (r"\breturn (?=[^;]*;)(?!true|false)", ["return -", "return !"]),
    (r"\bif \((?=.*\)( \{)?$)", ["if (!"]),
]


def blank(match):
    return re.sub(r"[^\n]", " ", match.group())


def bare(text):
    """the text with comments, strings and what the preprocessor reads made blank"""
    text = re.sub(r"/\*.*?\*/", blank, text, flags=re.S)
    text = re.sub(r'"(\\.|[^"\\\n])*"|\'(\\.|[^\'\\\n])*\'', lambda m: "@" * len(m.group()), text)
    return re.sub(r"^#.*(\\\n.*)*", blank, text, flags=re.M)


def number(text):
    return repr(float(text) * 1.1) if "." in text or "e" in text else str(int(text) + 1)


def enclosed(line, at):
    """after `(` or `return ` at `at`: where the expression ends"""
    depth = 0
    for i in range(at, len(line)):
        depth += (line[i] == "(") - (line[i] == ")")
        if depth < 0 or (line[i] == ";" and depth == 0):
            return i
    return None


def mutants(path):
    """every change of a file: (path, line number, old line, new line)"""
    with open(path, encoding="utf-8") as file:
        text = file.read()
    found = []
    for at, (line, seen) in enumerate(zip(text.split("\n"), bare(text).split("\n"))):
        if re.match(r"(static |enum |struct |typedef |_Static_assert)", seen):
            continue
        for pattern, instead in CHANGES:
            for m in re.finditer(pattern, seen):
                for new in instead:
                    rest = line[m.end():]
                    if new is None:
                        new = number(m.group())
                    elif new.endswith(("return -", "return !", "(!")):
                        end = enclosed(seen, m.end())
                        if end is None:
                            continue
                        rest = "(" + line[m.end():end] + ")" + line[end:]
                    found.append((path, at, line, line[:m.start()] + new + rest))
    return found


def run(command, folder, seconds, **more):
    """whether it ended well within its time; a group of its own, so that what it started ends too"""
    def alone():
        os.setsid()
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    told = subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                            preexec_fn=alone, **more)
    try:
        return told.wait(seconds) == 0
    except subprocess.TimeoutExpired:
        os.killpg(told.pid, 9)
        told.wait()
        return False


class Bench:
    """a copy of what tests read, and the objects of one mutant at a time"""
    def __init__(self, which):
        self.folder = f"{BUILT}/bench{which}"
        shutil.rmtree(self.folder, ignore_errors=True)
        for part in ("tests", "scenarios", "plots", "docs", "model"):
            shutil.copytree(part, f"{self.folder}/{part}")
        self.whole = os.path.abspath(f"{self.folder}/whole.so")

    def passes(self, test, seconds, path=None):
        """whether a test takes the program as it lies here, of which path is changed"""
        whole, where = os.path.abspath(BUILT), {**os.environ, "LD_LIBRARY_PATH": os.path.dirname(self.whole)}
        program = ["sh", test, whole + "/midden"] if test.endswith(".sh") else [f"{whole}/tests/{test}"]
        if path and not test.endswith(".sh") and path in needs(f"{whole}/tests/{test}.d"):
            program = [os.path.abspath(f"{self.folder}/test")]
            extra = ["-lcmocka", *(CVODE if test.endswith("_cvode") else [])]
            extra += ["-ludunits2"] if test == "base/test_unit" else []
            if subprocess.run([COMPILE[0], f"-I{self.folder}/changed/model", *COMPILE[1:], "-Itests",
                               f"tests/{test}.c", self.whole, *extra, *LIBS, "-o", *program],
                              stderr=subprocess.DEVNULL).returncode:
                return False
        return run(program, self.folder, seconds, env=where)

    def build(self, mutant):
        """`same`, `broken` or `made`"""
        path, at, _, new = mutant
        shutil.rmtree(f"{self.folder}/changed", ignore_errors=True)
        changed = f"{self.folder}/changed/{path}"
        os.makedirs(os.path.dirname(changed))
        with open(path, encoding="utf-8") as file:
            lines = file.read().split("\n")
        lines[at] = new
        with open(changed, "w", encoding="utf-8") as file:
            file.write("\n".join(lines))
        fresh = []
        for source in self.sources(path):
            old = assembly(source, f"{self.folder}/old.s", [])
            new = assembly(changed if source == path else source, f"{self.folder}/changed/{source[:-2]}.s",
                           [f"-I{self.folder}/changed/model"])
            if new is None:
                return "broken"
            if new != old:
                fresh.append(source)
        if not fresh:
            return "same"
        linked = []
        for unit in glob.glob(f"{BUILT}/model/*/*.o"):
            source = unit[len(BUILT) + 1:-2] + ".c"
            if source in fresh:
                unit = f"{self.folder}/changed/{source[:-2]}.o"
                subprocess.run(["gcc", "-c", unit[:-2] + ".s", "-o", unit], check=True)
            if source != "model/door/main.c":
                linked.append(unit)
        subprocess.run(["gcc", "-shared", *linked, "-Wl,-soname,whole.so", *LIBS, "-o", self.whole], check=True)
        return "made"

    @staticmethod
    def sources(path):
        """the files to compile anew, as the compiler's notes tell"""
        if path.endswith(".c"):
            return [path]
        return sorted(note[len(BUILT) + 1:-2] + ".c" for note in glob.glob(f"{BUILT}/model/*/*.d")
                      if path in needs(note))


def needs(note):
    """what a file was made of, as the compiler noted it"""
    with open(note, encoding="utf-8") as file:
        return file.read().split()


def assembly(text, out, first):
    """what the compiler makes of a file, which doesn't tell its name; None if it refuses"""
    os.makedirs(os.path.dirname(out), exist_ok=True)
    if subprocess.run([COMPILE[0], *first, *COMPILE[1:], "-Werror=int-conversion", "-S", text, "-o", out],
                      stderr=subprocess.DEVNULL).returncode:
        return None
    with open(out, encoding="utf-8") as file:
        return re.sub(r'^\s*\.file.*\n', "", file.read(), flags=re.M)


def order(path, times):
    """the tests to run, its own first"""
    room, stem = path.split("/")[1], os.path.splitext(os.path.basename(path))[0]
    own = [t for t in times if re.match(rf"{room}/test_{stem}(_|$)", t)]
    near = [t for t in times if t.startswith(room + "/")]
    rest = [t for t in times if times[t] < QUICK and not t.endswith(".sh")]
    return list(dict.fromkeys(own + sorted((t for t in near if times[t] < 3 * QUICK), key=times.get) +
                              sorted(rest, key=times.get) + SCRIPTS))


def judge(bench, mutant, times):
    built = bench.build(mutant)
    if built != "made":
        return built
    for test in order(mutant[0], times):
        if not bench.passes(test, 20 + 4 * times[test], mutant[0]):
            return "killed by " + test
    return "survived"


def measure(bench):
    """seconds that each test takes of the program as it is, which all must pass; kept beside it"""
    kept, times = f"{BUILT}/times", {}
    if os.path.exists(kept) and os.path.getmtime(kept) > os.path.getmtime(f"{BUILT}/whole.so"):
        with open(kept, encoding="utf-8") as file:
            return json.load(file)
    tests = [note[len(BUILT) + 7:-2] for note in sorted(glob.glob(f"{BUILT}/tests/*/test_*.d"))]
    for test in tests + SCRIPTS:
        begun = time.monotonic()
        if not bench.passes(test, 300):
            sys.exit(f"{test} fails without any change")
        times[test] = time.monotonic() - begun
    with open(kept, "w", encoding="utf-8") as file:
        json.dump(times, file)
    return times


def work(bench, room, queue, times):
    """the next mutants of a room, until its share is judged"""
    rows = []
    while True:
        try:
            mutant = queue.pop()
        except IndexError:
            return rows
        said = judge(bench, mutant, times)
        if said == "broken":
            queue.append(SPARE[room].pop()) if SPARE[room] else None
            continue
        path, at, old, new = mutant
        print(f"{path}:{at + 1}: {said}\n    {old.strip()}\n    {new.strip() or '(dropped)'}", flush=True)
        rows.append(said.split()[0])


def main():
    rooms, benches = sys.argv[5:], [Bench(i) for i in range(JOBS)]
    for bench in benches:
        shutil.copy(f"{BUILT}/whole.so", bench.whole)
    times = measure(benches[0])
    share = -(-int(sys.argv[3]) // len(rooms))
    table = []
    for room in rooms:
        every = [m for path in sorted(glob.glob(f"model/{room}/*.[ch]")) for m in mutants(path)]
        random.Random(f"{sys.argv[4]} {room}").shuffle(every)
        queue, SPARE[room] = every[:share], every[share:]
        with ThreadPoolExecutor(JOBS) as crew:
            said = sum(crew.map(lambda b: work(b, room, queue, times), benches), [])
        table.append([room, *(said.count(word) for word in ("killed", "survived", "same"))])
    print(f"\n{'room':8}{'killed':>8}{'survived':>10}{'same program':>14}{'score':>8}")
    table.append(["all", *(sum(row[i] for row in table) for i in (1, 2, 3))])
    for room, killed, survived, same in table:
        print(f"{room:8}{killed:8}{survived:10}{same:14}{100 * killed / max(1, killed + survived):7.0f} %")


COMPILE, LIBS, SPARE = sys.argv[1].split(), sys.argv[2].split(), {}
main()
