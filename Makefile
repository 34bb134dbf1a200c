# SPDX-License-Identifier: GPL-3.0-or-later
#: make               builds ./midden
#: make demo          draws a season of the demonstration garden into pictures/
#: make test          builds and runs the tests, most of them under sanitizers
#: make check         the whole gate: both compilers strict and of one mind, test, layers, docs unchanged
#: make browser       lets a browser judge a report (chromium; npm: puppeteer-core, axe-core)
#: make layers        the laws of model/README.md
#: make analyse       gcc -fanalyzer, clang-tidy and cppcheck over model/; fails on what isn't argued
#: make coverage      lines and branches that the tests reach, by room and file (minutes)
#: make mutants       MUTANTS=60 SEED=1 small changes of the program: which of them does no test notice?
#: make threads       the thread sanitizer over what runs on several    make valgrind  memcheck
#: make bench         times seasons, races other solvers, writes docs/performance.md (10 minutes)
#: make validate      runs every published experiment as an ensemble and scores it (minutes)
#: make thumb         tries the rules of thumb and rewrites docs/rules-of-thumb.md (minutes; jq)
#: make calibrate     fits the global constants to them, with left-out folds (40 minutes)
#: make twins         learns from the readings of a hundred piles that are known (minutes)
#: make fuzz          SECONDS=20 for each reader of bytes, with clang's fuzzer and sanitizers
#: make seasons       N=10000 random gardens, every law of a season tried on each (half an hour)
#: make docs          rewrites docs/tables/, docs/answers.md and the teaching pages from runs (minutes)
#: make plots         draws the pictures of every scenario into build/plots/
#: make install       PREFIX=/usr/local DESTDIR=      make uninstall
#: make deb           Debian packages into build/deb/ (debhelper; lintian if it is there)
#: make clean         removes what was built           make help

NAME    = midden
PREFIX ?= /usr/local
bindir  = $(DESTDIR)$(PREFIX)/bin
datadir = $(DESTDIR)$(PREFIX)/share/$(NAME)

CFLAGS  ?= -O3 -g
WARN     = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes
# -ffp-contract=off: no fused multiply-add, so that every machine rounds alike.
# -fno-math-errno, -fno-trapping-math: nobody here reads errno or floating-point flags afterwards, so
# sqrt is one instruction and choices by mask can be vectorised; neither changes a digit.
LANGUAGE = -std=c11 -D_POSIX_C_SOURCE=200809L -ffp-contract=off -fno-math-errno -fno-trapping-math -Imodel -Ibuild
OPTIONS  = $(LANGUAGE) $(WARN) -MMD -MP -ffile-prefix-map=$(CURDIR)=.
SANITIZE = -fsanitize=address,undefined -fno-sanitize-recover=all
CHECKED  = -O1 -g $(SANITIZE)
LIBS     = -lyaml -ljansson -lcsv -lgsl -lgslcblas -lm -pthread

# ---- what there is --------------------------------------------------------------------------------
MODEL   := $(patsubst model/%.c,%,$(sort $(wildcard model/*/*.c)))
HEADERS := $(sort $(wildcard model/*/*.h))
# The season kernel: the files written over the type `lane`, compiled once for each width.
KERNEL  := $(filter base/lane base/band pile/% life/% flow/% run/%,$(MODEL))
KERNEL  := $(filter-out pile/flux run/plan run/possible run/record,$(KERNEL))
TESTS   := $(patsubst tests/%.c,%,$(sort $(wildcard tests/*/test_*.c)))
SCRIPTS := $(sort $(wildcard tests/laws/*.sh tests/cli/*.sh tests/stories/*.sh))
# Whole seasons crawl under sanitizers: tests in these folders link the program's own objects.
FAST_FOLDERS = run field lanes

MAIN     = door/main
# does the compiler know an option, does a header exist
option   = $(shell $(CC) $(1) -E -x c /dev/null >/dev/null 2>&1 && echo yes)
HASH    := \#
header   = $(shell echo '$(HASH)include <$(1)>' | $(CC) -E -x c - >/dev/null 2>&1 && echo yes)

# Tests that need more than the program: left out, with a note, where it isn't installed.
CVODE_TESTS  := $(filter %_cvode,$(TESTS))
UDUNIT_TESTS := $(filter base/test_unit,$(TESTS))
LANE_TESTS   := $(filter lanes/%,$(TESTS))
ifneq ($(and $(CVODE_TESTS),$(if $(call header,cvode/cvode.h),,missing)),)
  LEFT_OUT += $(CVODE_TESTS)
endif
ifneq ($(and $(UDUNIT_TESTS),$(if $(call header,udunits2.h),,missing)),)
  LEFT_OUT += $(UDUNIT_TESTS)
endif
ifneq ($(and $(LANE_TESTS),$(if $(call option,-mavx2),,missing)),)
  LEFT_OUT += $(LANE_TESTS)
endif
ifneq ($(and $(LEFT_OUT),$(filter test check,$(MAKECMDGOALS))),)
  $(info left out for want of a library or of AVX2 instructions: $(LEFT_OUT))
endif
TESTS := $(filter-out $(LEFT_OUT),$(TESTS))
FAST  := $(filter $(FAST_FOLDERS:%=%/%) many/test_crew many/test_posterior ask/test_search ask/test_left \
  ask/test_why ask/test_lesson fuzz/test_seasons,$(TESTS))
SLOW  := $(filter-out $(FAST),$(TESTS))

.PHONY: all demo test check browser layers strict same bench twins validate calibrate thumb fuzz seasons docs plots \
  install uninstall deb clean help
.DELETE_ON_ERROR:

all: $(NAME)

# Four more copies of the kernel, picked when the program runs: for processors with AVX2 one and four
# members wide, for those with AVX-512 one and eight wide; the same digits.
ifeq ($(call option,-mavx2),yes)
  AVX2 = build/avx2/kernel_avx2.o build/avx512/kernel_avx512.o build/x4/kernel_x4.o build/x8/kernel_x8.o
  OPTIONS += -DSEASON_AVX2
endif
AVX512 = -mavx2 -mavx512f -mavx512dq -mavx512vl -mavx512bw

# ---- the program ----------------------------------------------------------------------------------
$(NAME): $(MODEL:%=build/plain/%.o) $(AVX2)
	$(CC) $(CFLAGS) $(LDFLAGS) $^ $(LIBS) -o $@

build/plain/%.o: model/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -c $< -o $@

build/checked/%.o: model/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CHECKED) -c $< -o $@

# the scripts of plots/ as C strings, so that an installed program needs no files beside it
PICTURES := $(sort $(wildcard plots/*.gp))
build/generated/plots.h: $(PICTURES) Makefile
	@mkdir -p $(@D)
	@for p in $(PICTURES); do \
	  echo "static const char *const plots_$$(basename $$p .gp)[] = {"; \
	  sed -e '/^#/d' -e '/^ *$$/d' -e 's/["\\]/\\&/g' -e 's/.*/    "&\\n",/' $$p; \
	  echo "    0};"; done >$@
	@echo "static const struct { const char *name; const char *const *line; } plots_rows[] = {" >>$@
	@for n in $(basename $(notdir $(PICTURES))); do echo "    {\"$$n\", plots_$$n},"; done >>$@
	@echo "    {0, 0}};" >>$@
build/plain/tell/picture.o build/checked/tell/picture.o build/gcc/tell/picture.o build/clang/tell/picture.o: \
  build/generated/plots.h

# all but door/main, for the tests to link
LINKED := $(filter-out $(MAIN),$(MODEL))
build/plain/$(NAME).a: $(LINKED:%=build/plain/%.o) $(AVX2)
build/checked/$(NAME).a: $(LINKED:%=build/checked/%.o) $(AVX2)
build/plain/$(NAME).a build/checked/$(NAME).a:
	@rm -f $@
	ar rcs $@ $^

build/avx2/%.o: model/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -mavx2 -mtune=haswell -DLANE_TAG=x1_avx2 -c $< -o $@

build/avx512/%.o: model/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) $(AVX512) -DLANE_TAG=x1_avx512 -c $< -o $@

build/avx2/kernel_avx2.o: $(KERNEL:%=build/avx2/%.o)
build/avx512/kernel_avx512.o: $(KERNEL:%=build/avx512/%.o)
build/avx2/kernel_avx2.o build/avx512/kernel_avx512.o: build/%.o:
	ld -r -o $(@D)/joined.o $^
	objcopy --keep-global-symbol=season_run_x1_$(notdir $(@D)) $(@D)/joined.o $@

# ---- the kernel four and eight members wide: each one object that shows a single name ---------------
WIDE   = -DLANES=4 -mavx2
WIDEST = -DLANES=8 $(AVX512)
build/x4/%.o: model/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) $(WIDE) -c $< -o $@

build/x8/%.o: model/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) $(WIDEST) -c $< -o $@

build/x4/kernel_x4.o: $(KERNEL:%=build/x4/%.o)
build/x8/kernel_x8.o: $(KERNEL:%=build/x8/%.o)
build/x4/kernel_x4.o build/x8/kernel_x8.o: build/%.o:
	ld -r -o $(@D)/joined.o $^
	@nm --defined-only $(@D)/joined.o | grep -q ' T season_run_$(notdir $(@D))$$' || \
	  { echo "the kernel has no season_run_$(notdir $(@D))"; exit 1; }
	objcopy --keep-global-symbol=season_run_$(notdir $(@D)) $(@D)/joined.o $@

# ---- tests ----------------------------------------------------------------------------------------
$(FAST:%=build/tests/%.o): build/tests/%.o: tests/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -Itests -c $< -o $@

$(SLOW:%=build/tests/%.o): build/tests/%.o: tests/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CHECKED) -Itests -c $< -o $@

$(FAST:%=build/tests/%): build/tests/%: build/tests/%.o build/plain/$(NAME).a
	$(CC) $(CFLAGS) $(LDFLAGS) $(filter %.o,$^) $(filter %.a,$^) $(EXTRA) -lcmocka $(LIBS) -o $@

$(SLOW:%=build/tests/%): build/tests/%: build/tests/%.o build/checked/$(NAME).a
	$(CC) $(CHECKED) $(LDFLAGS) $^ $(EXTRA) -lcmocka $(LIBS) -o $@

CVODE_LIBS = -lsundials_cvode -lsundials_nvecserial -lsundials_sunmatrixband -lsundials_sunlinsolband
$(CVODE_TESTS:%=build/tests/%): EXTRA = $(CVODE_LIBS)
$(UDUNIT_TESTS:%=build/tests/%): EXTRA = -ludunits2

# calls that fail when they are told to, for tests/cli/memory.sh
build/faults/shim.so: tests/faults/shim.c
	@mkdir -p $(@D)
	$(CC) $(WARN) -O1 -shared -fPIC $< -ldl -o $@

# Runs everything, counts it, and leaves the totals in build/tests/total, which `check` looks at, so
# that a gate after `make test` doesn't run the same tests again.
RUNNER = tests/all.sh build/tests ./$(NAME) $(SCRIPTS) $(TESTS:%=build/tests/%)
NEEDED = $(TESTS:%=build/tests/%) $(NAME) $(SCRIPTS) build/faults/shim.so tests/all.sh tests/one.sh tests/shown.sh docs/answers.md tests/layers.awk \
  $(wildcard scenarios/* tests/*/data/* tests/bench/*.yaml tests/fuzz/*.h tests/fuzz/*/*/*)

test: $(NEEDED)
	@sh $(RUNNER)

build/tests/total: $(NEEDED)
	@sh $(RUNNER)

# ---- the gate -------------------------------------------------------------------------------------
# Optimised, since some warnings come only with the flow of values; every warning is an error here.
STRICT = $(LANGUAGE) $(WARN) -Werror -O2 -MMD -MP
build/gcc/%.o: model/%.c
	@mkdir -p $(@D)
	@gcc $(STRICT) -c $< -o $@
build/clang/%.o: model/%.c
	@mkdir -p $(@D)
	@clang $(STRICT) -c $< -o $@
build/gcc-x4/%.o: model/%.c
	@mkdir -p $(@D)
	@gcc $(STRICT) $(WIDE) -c $< -o $@
build/clang-x4/%.o: model/%.c
	@mkdir -p $(@D)
	@clang $(STRICT) $(WIDE) -c $< -o $@
build/gcc-x8/%.o: model/%.c
	@mkdir -p $(@D)
	@gcc $(STRICT) $(WIDEST) -c $< -o $@
build/clang-x8/%.o: model/%.c
	@mkdir -p $(@D)
	@clang $(STRICT) $(WIDEST) -c $< -o $@

build/gcc-tests/%.o: tests/%.c
	@mkdir -p $(@D)
	@gcc $(STRICT) -Itests -c $< -o $@

STRICT_OBJECTS = $(MODEL:%=build/gcc/%.o) $(MODEL:%=build/clang/%.o) $(TESTS:%=build/gcc-tests/%.o)
ifneq ($(filter check strict,$(MAKECMDGOALS)),)
  ifeq ($(call option,-mavx2),yes)
    STRICT_OBJECTS += $(foreach kind,gcc-x4 clang-x4 gcc-x8 clang-x8,$(KERNEL:%=build/$(kind)/%.o))
  endif
endif
strict: $(STRICT_OBJECTS)
	@echo "strict: $(words $(STRICT_OBJECTS)) compilations by gcc and clang without a warning"

# What was compiled strictly, without AVX2, is linked and asked: the same bytes are expected.
build/gcc/$(NAME): $(MODEL:%=build/gcc/%.o)
	@gcc $^ $(LIBS) -o $@
build/clang/$(NAME): $(MODEL:%=build/clang/%.o)
	@clang $^ $(LIBS) -o $@
same: $(NAME) build/gcc/$(NAME) build/clang/$(NAME)
	@sh tests/same.sh ./$(NAME) build/gcc/$(NAME) build/clang/$(NAME)

# Includes and words by awk; each header alone; each external symbol begins with its file's stem.
layers: $(MODEL:%=build/plain/%.o)
	@awk -f tests/layers.awk model/README.md $(sort $(wildcard model/*/*.[ch] model/*/*.def))
	@for h in $(HEADERS); do \
	  $(CC) $(LANGUAGE) $(WARN) -Wno-unused -Werror -fsyntax-only -x c $$h || exit 1; done
	@bad=0; for m in $(LINKED); do \
	  nm -g --defined-only build/plain/$$m.o | awk -v stem=$${m#*/} -v file=model/$$m.c \
	    'NF == 3 && $$3 !~ "^" stem "(_|$$)" { print file ": " $$3 " does not begin with " stem; bad = 1 } \
	     END { exit bad }' || bad=1; done; exit $$bad
	@echo "layers: $(words $(MODEL)) files keep the laws of model/README.md"

browser: $(NAME)
	@sh tests/browser/report.sh ./$(NAME)

# the pages that make docs writes
WRITTEN = docs/tables docs/answers.md docs/lesson.md docs/how-a-pile-works.md README.md
check: $(NAME) strict same build/tests/total layers
	@$(MAKE) --no-print-directory browser
	@$(MAKE) --no-print-directory docs
	@git diff --exit-code --stat -- $(WRITTEN) && \
	  test -z "$$(git ls-files --others --exclude-standard -- $(WRITTEN))" || \
	  { echo "the pages were not what the program says: add what 'make docs' wrote"; exit 1; }
	@cat build/tests/total

# ---- figures, pages, times ------------------------------------------------------------------------
DEMO = scenarios/nettle-yard.yaml
demo: $(NAME)
	./$(NAME) run $(DEMO) --plot pictures --force
	@echo "The pictures are in pictures/."

plots: $(NAME)
	@mkdir -p build/plots
	@for s in scenarios/*.yaml; do n=$$(basename $$s .yaml); \
	  ./$(NAME) run $$s --plot build/plots/$$n --force >build/plots/$$n.txt || exit 1; \
	  echo "build/plots/$$n"; done

thumb: $(NAME)
	@sh tests/thumb/thumb.sh ./$(NAME)

docs: $(NAME)
	@sh tests/pages.sh ./$(NAME)

# The bench links the kernel that the program would pick here, and gives every rival the same one. The
# program's own copies are there too, each joined and showing its entry alone, since crews run them.
# Counted under valgrind, which knows no AVX-512, is the copy for AVX2.
here       = $(and $(AVX2),$(shell grep -lw $(1) /proc/cpuinfo 2>/dev/null))
ifneq ($(and $(call here,avx512f),$(call here,avx512dq),$(call here,avx512vl),$(call here,avx512bw)),)
  BENCH_FLAGS   = -mavx2 -DBENCH_SEASON=season_run_x1_avx512 -DBENCH_LEVEL='"AVX-512"' -DBENCH_WIDE
  BENCH_OBJECTS = $(KERNEL:%=build/avx512/%.o)
  BENCH_MORE    = build/race/kernel_x1.o $(filter-out %_avx512.o,$(AVX2))
else ifneq ($(call here,avx2),)
  BENCH_FLAGS   = -mavx2 -DBENCH_SEASON=season_run_x1_avx2 -DBENCH_LEVEL='"AVX2"' -DBENCH_WIDE
  BENCH_OBJECTS = $(KERNEL:%=build/avx2/%.o)
  BENCH_MORE    = build/race/kernel_x1.o $(filter-out %_avx2.o,$(AVX2))
else
  BENCH_FLAGS   = -DBENCH_SEASON=season_run_x1 -DBENCH_LEVEL='"any processor"'
  BENCH_OBJECTS = $(KERNEL:%=build/plain/%.o)
  BENCH_MORE    = $(AVX2)
endif
build/race/kernel_x1.o: $(KERNEL:%=build/plain/%.o)
	@mkdir -p $(@D)
	ld -r -o build/race/joined_x1.o $^
	objcopy --keep-global-symbol=season_run_x1 build/race/joined_x1.o $@

# the rest from an archive, of which only what is called is taken
build/bench.a: $(filter-out $(KERNEL:%=build/plain/%.o),$(LINKED:%=build/plain/%.o))
	@rm -f $@
	ar rcs $@ $^

BENCH_CC = $(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) $(BENCH_FLAGS) -Itests
# at fixed addresses, so that counted instructions can be looked up
build/bench: $(wildcard tests/bench/*.[ch] tests/run/*.h) $(BENCH_OBJECTS) $(BENCH_MORE) build/bench.a
	@$(if $(call header,cvode/cvode.h),,echo "the bench races SUNDIALS' CVODE: install libsundials-dev"; exit 1)
	$(BENCH_CC) tests/bench/bench.c $(BENCH_OBJECTS) $(BENCH_MORE) build/bench.a \
	  $(LDFLAGS) -no-pie $(CVODE_LIBS) $(LIBS) -o $@

# The right-hand side for other languages. What touches libraries' data must be made for any address;
# all else is joined first.
LENT_ANYWHERE = $(addprefix build/race/,sky/curve_make.o sky/normals.o door/bytes.o)
build/race/%.o: model/%.c
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -fPIC -c $< -o $@
build/race/lent.so: $(wildcard tests/bench/*.[ch] tests/run/*.h) $(BENCH_OBJECTS) $(LENT_ANYWHERE) build/bench.a
	$(BENCH_CC) -fPIC -c tests/bench/lent.c -o build/race/lent.o
	ld -r -o build/race/joined.o build/race/lent.o $(LENT_ANYWHERE) $(BENCH_OBJECTS) build/bench.a
	objcopy --wildcard --keep-global-symbol='lent_*' build/race/joined.o
	$(CC) $(LDFLAGS) -shared build/race/joined.o $(CVODE_LIBS) $(LIBS) -o $@

bench: build/bench build/race/lent.so
	@sh tests/bench/bench.sh build/bench build/race/lent.so

# ---- learning from readings, of piles that are known ----
build/twins: tests/twins/twins.c tests/twins/twin.h build/plain/$(NAME).a
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -Itests $(filter %.c %.a,$^) $(LDFLAGS) $(LIBS) -o $@

build/later: tests/twins/later.c build/plain/$(NAME).a
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -Itests $(filter %.c %.a,$^) $(LDFLAGS) $(LIBS) -o $@

twins: build/twins build/later
	@build/later tests/field/x19/diary.yaml tests/field/x19/course.csv - 22
	@build/later tests/field/x21/heap1.yaml tests/field/x21/course.csv heap1 7
	@build/later tests/field/x21/heap2.yaml tests/field/x21/course.csv heap2 22
	@build/later tests/field/x30/pile.yaml tests/twins/x30.csv - 22
	@build/later tests/field/x18/cage.yaml tests/twins/x18.csv - 3
	@build/later tests/field/x20/bin.yaml tests/twins/x20.csv - 8
	@build/later tests/field/x04/loose.yaml tests/twins/x04.csv - 30 "mixed on day 30"
	@build/twins tests/twins/pile.yaml $(or $(TWINS),100) $(or $(FIRST),1)

# ---- published experiments ------------------------------------------------------------------------
FIELD_CODE = tests/field/figures.c tests/field/measure.c tests/field/fitted.c
build/calibrate: $(patsubst %,tests/field/%.c,calibrate swing learner emulate tried trial) $(FIELD_CODE) $(wildcard tests/field/*.h) build/plain/$(NAME).a
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -Itests $(filter %.c %.a,$^) $(LDFLAGS) $(LIBS) -o $@

build/validate: tests/field/validate.c $(FIELD_CODE) $(wildcard tests/field/*.h) build/plain/$(NAME).a
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -Itests $(filter %.c %.a,$^) $(LDFLAGS) $(LIBS) -o $@

# MEMBERS=64 for more possible piles, ONLY='x04 x13' for some experiments
validate: build/validate
	@build/validate tests/field $(or $(MEMBERS),32) $(ONLY) >build/validation.md
	@build/validate -left-out tests/field $(or $(MEMBERS),32) $(ONLY) >>build/validation.md
	@cat build/validation.md
	@$(if $(ONLY),,cp build/validation.md docs/validation.md)
	@$(if $(ONLY),,for c in build/course-*.dat; do gnuplot -e "data='$$c'" tests/field/course.gp; done)

# the fit that know/param's values come from; goes on where it stopped, with the trials in build/
calibrate: build/calibrate
	@build/calibrate fit tests/field $(or $(MINUTES),60) build/calibrate-trials.csv tests/field/fitted.csv

# ---- random input ---------------------------------------------------------------------------------
# What a fuzzer finds is kept in build/fuzz/found; shrink it (-minimize_crash=1), mend the program, and
# put the bytes into tests/fuzz/found/TARGET, which `make test` reads from then on.
FUZZERS   = scenario weather log shard ask season
FUZZ_WITH = -O1 -g -Wno-pass-failed -fsanitize=address,undefined -fno-sanitize-recover=all
build/fuzz/%.o: model/%.c
	@mkdir -p $(@D)
	clang $(OPTIONS) $(CPPFLAGS) $(FUZZ_WITH) -fsanitize=fuzzer-no-link -c $< -o $@

build/fuzz/tell/picture.o: build/generated/plots.h

build/fuzz/$(NAME).a: $(LINKED:%=build/fuzz/%.o) $(AVX2)
	@rm -f $@
	@ar rcs $@ $^

$(FUZZERS:%=build/fuzz/run-%): build/fuzz/run-%: tests/fuzz/target.c $(wildcard tests/fuzz/*.h) build/fuzz/$(NAME).a
	clang $(OPTIONS) $(CPPFLAGS) $(FUZZ_WITH) -fsanitize=fuzzer -Itests -DTARGET=target_$* \
	  $(filter %.c %.a,$^) $(LDFLAGS) $(LIBS) -o $@

# Starts from the stored bytes, which it doesn't change, and from a shard of today's layout; what else
# reaches new code stays in build/.
fuzz: $(FUZZERS:%=build/fuzz/run-%) $(NAME)
	@mkdir -p build/fuzz/corpus/shard build/fuzz/corpus/scenario
	@cp scenarios/*.yaml tests/broken/*.yaml build/fuzz/corpus/scenario
	@./$(NAME) run --members 1-1 --force -q scenarios/minimal.yaml -o build/fuzz/corpus/shard/today
	@for t in $(FUZZERS); do \
	  mkdir -p build/fuzz/corpus/$$t build/fuzz/found; \
	  echo "-- $$t"; \
	  build/fuzz/run-$$t -max_total_time=$(or $(SECONDS),20) -timeout=20 -rss_limit_mb=2048 \
	    -print_final_stats=0 -verbosity=0 -close_fd_mask=1 -artifact_prefix=build/fuzz/found/$$t- \
	    $$(test -f tests/fuzz/$$t.dict && echo -dict=tests/fuzz/$$t.dict) \
	    build/fuzz/corpus/$$t tests/fuzz/corpus/$$t $$(ls -d tests/fuzz/found/$$t 2>/dev/null) || exit 1; \
	done; echo "fuzz: $(FUZZERS), $(or $(SECONDS),20) s each, nothing found"

build/fuzz/seasons: tests/fuzz/seasons.c $(wildcard tests/fuzz/*.h) build/plain/$(NAME).a
	@mkdir -p $(@D)
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) -Itests $(filter %.c %.a,$^) $(LDFLAGS) $(LIBS) -o $@

# FIRST=10001 goes on where ten thousand stopped
seasons: build/fuzz/seasons
	@build/fuzz/seasons $(or $(N),10000) $(or $(FIRST),1)

# ---- installed, and packed for Debian --------------------------------------------------------------
VERSION     := $(shell sed -n 's/^.define VERSION "\(.*\)"/\1/p' model/base/version.h)
libdir      ?= $(PREFIX)/lib
mandir       = $(DESTDIR)$(PREFIX)/share/man/man1
bashdir      = $(DESTDIR)$(PREFIX)/share/bash-completion/completions
zshdir      ?= $(PREFIX)/share/zsh/site-functions
includedir   = $(DESTDIR)$(PREFIX)/include
PACKAGING    = docs/packaging

# manual page and completions, which the program's own tables make
build/pages: $(PACKAGING)/pages.c build/plain/$(NAME).a
	$(CC) $(OPTIONS) $(CPPFLAGS) $(CFLAGS) $^ $(LDFLAGS) $(LIBS) -o $@
build/installed/$(NAME).1: PAGE = manual
build/installed/$(NAME).bash: PAGE = bash
build/installed/_$(NAME): PAGE = zsh
build/installed/$(NAME).1 build/installed/$(NAME).bash build/installed/_$(NAME): build/pages
	@mkdir -p $(@D)
	build/pages $(PAGE) >$@

# The library: open/midden and what it needs, joined into one object that shows midden_* alone.
build/installed/lib$(NAME).a: build/plain/open/$(NAME).o build/plain/$(NAME).a
	@mkdir -p $(@D) build/library
	ld -r -o build/library/joined.o $^
	objcopy --wildcard --keep-global-symbol='$(NAME)_*' build/library/joined.o build/library/$(NAME).o
	@rm -f $@
	ar rcsD $@ build/library/$(NAME).o
build/installed/$(NAME).pc: $(PACKAGING)/$(NAME).pc.in model/base/version.h FORCE
	@mkdir -p $(@D)
	@sed -e 's|@PREFIX@|$(PREFIX)|' -e 's|@LIBDIR@|$(libdir)|' -e 's|@INCLUDEDIR@|$(PREFIX)/include|' \
	  -e 's|@VERSION@|$(VERSION)|' $< >$@
FORCE:

INSTALLED = $(addprefix build/installed/,$(NAME).1 $(NAME).bash _$(NAME) lib$(NAME).a $(NAME).pc)
install: $(NAME) $(INSTALLED)
	install -d $(bindir) $(datadir)/scenarios $(mandir) $(bashdir) $(DESTDIR)$(zshdir) $(includedir) \
	  $(DESTDIR)$(libdir)/pkgconfig
	install -m 755 $(NAME) $(bindir)/$(NAME)
	install -m 644 scenarios/* $(datadir)/scenarios/
	install -m 644 build/installed/$(NAME).1 $(mandir)/
	install -m 644 build/installed/$(NAME).bash $(bashdir)/$(NAME)
	install -m 644 build/installed/_$(NAME) $(DESTDIR)$(zshdir)/
	install -m 644 model/open/$(NAME).h $(includedir)/
	install -m 644 build/installed/lib$(NAME).a $(DESTDIR)$(libdir)/
	install -m 644 build/installed/$(NAME).pc $(DESTDIR)$(libdir)/pkgconfig/

uninstall:
	rm -f $(bindir)/$(NAME) $(mandir)/$(NAME).1 $(bashdir)/$(NAME) $(DESTDIR)$(zshdir)/_$(NAME) \
	  $(includedir)/$(NAME).h $(DESTDIR)$(libdir)/lib$(NAME).a $(DESTDIR)$(libdir)/pkgconfig/$(NAME).pc
	rm -rf $(datadir)

deb:
	@sh $(PACKAGING)/deb.sh $(VERSION)

include tests/proof/proof.mk

clean:
	rm -rf build $(NAME)

help:
	@sed -n 's/^#: //p' Makefile

-include $(shell find build -name '*.d' 2>/dev/null)
