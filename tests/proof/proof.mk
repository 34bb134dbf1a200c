# SPDX-License-Identifier: GPL-3.0-or-later
# tests/proof/proof.mk - how good the tests are: what the Makefile includes for `make analyse`,
# `make coverage`, `make mutants`, `make threads` and `make valgrind`. docs/tests.md tells of them.

# ---- which lines and branches the tests reach ------------------------------------------------------
# Hardly optimised, so that a branch of the text is one of the program; without the copies of
# the kernel for AVX2, so that every season runs through the one that is counted.
COVERED  = -O1 -g --coverage
COVER    = gcc $(filter-out -DSEASON_AVX2,$(OPTIONS)) $(CPPFLAGS) $(COVERED)
COVER_TESTS = $(filter-out lanes/% field/% fuzz/%,$(TESTS))

build/coverage/model/%.o: model/%.c
	@mkdir -p $(@D)
	@$(COVER) -c $< -o $@
build/coverage/model/tell/picture.o: build/generated/plots.h

build/coverage/$(NAME).a: $(LINKED:%=build/coverage/model/%.o)
	@rm -f $@
	@ar rcs $@ $^
build/coverage/$(NAME): $(MODEL:%=build/coverage/model/%.o)
	@gcc $(COVERED) $(LDFLAGS) $^ $(LIBS) -o $@
$(COVER_TESTS:%=build/coverage/tests/%): build/coverage/tests/%: tests/%.c build/coverage/$(NAME).a
	@mkdir -p $(@D)
	@gcc $(filter-out -DSEASON_AVX2,$(OPTIONS)) $(CPPFLAGS) -O1 -g -Itests -c $< -o $@.o
	@gcc --coverage $(LDFLAGS) $@.o $(EXTRA) build/coverage/$(NAME).a -lcmocka $(LIBS) -o $@
$(filter %_cvode,$(COVER_TESTS:%=build/coverage/tests/%)): EXTRA = $(CVODE_LIBS)
# many/crew alone gets the copies too, without which it runs no members side by side
ifneq ($(AVX2),)
build/coverage/model/many/crew_wide.o: model/many/crew.c
	@mkdir -p $(@D)
	@gcc $(OPTIONS) $(CPPFLAGS) $(COVERED) -c $< -o $@
build/coverage/tests/many/test_crew: EXTRA = build/coverage/model/many/crew_wide.o $(AVX2)
build/coverage/tests/many/test_crew: build/coverage/model/many/crew_wide.o $(AVX2)
endif
build/coverage/tests/base/test_unit: EXTRA = -ludunits2

# what tells of commands to man and to shells is only asked when it is installed
build/coverage/pages: $(PACKAGING)/pages.c build/coverage/$(NAME).a
	@gcc $(filter-out -DSEASON_AVX2,$(OPTIONS)) $(CPPFLAGS) -O1 -g --coverage $^ $(LDFLAGS) $(LIBS) -o $@

# Those scripts that run the program once or a few times for each case; faults, calendar and the stories
# run too many seasons for a program that counts.
COVER_SCRIPTS = $(addprefix tests/cli/,endings.sh options.sh limits.sh outputs.sh mix.sh next.sh sheet.sh \
  shards.sh learn.sh why.sh lesson.sh search.sh report.sh ics.sh terminal.sh refused.sh drawn.sh said.sh memory.sh)
.PHONY: coverage
coverage: build/faults/shim.so build/coverage/$(NAME) build/coverage/pages $(COVER_TESTS:%=build/coverage/tests/%)
	@find build/coverage -name '*.gcda' -delete
	@for t in $(COVER_TESTS); do build/coverage/tests/$$t >build/coverage/log 2>&1 || \
	  { cat build/coverage/log; exit 1; }; done
	@for p in manual bash zsh; do build/coverage/pages $$p >build/coverage/log || exit 1; done
	@sh tests/proof/runs.sh all build/coverage/$(NAME)
	@for s in $(COVER_SCRIPTS); do sh $$s build/coverage/$(NAME) >build/coverage/log 2>&1 || \
	  { grep '^not ok' build/coverage/log; exit 1; }; done
	@python3 tests/proof/coverage.py build/coverage

# ---- static analysis -------------------------------------------------------------------------------
# TROUBLE_ANALYSED tells analysers, which see one file at a time, what trouble_set answers.
ANALYSED = $(LANGUAGE) $(WARN) -Wno-unused-value -DTROUBLE_ANALYSED
# a file is looked at anew when it or a header of it changed, as its object is
build/analyse/%.gcc: model/%.c build/plain/%.o
	@mkdir -p $(@D)
	@gcc $(ANALYSED) -O1 -fanalyzer -c $< -o /dev/null 2>$@ || { cat $@; exit 1; }
build/analyse/%.tidy: model/%.c build/plain/%.o .clang-tidy
	@mkdir -p $(@D)
	@clang-tidy --quiet $< -- $(ANALYSED) >$@ 2>/dev/null || { cat $@; exit 1; }
# invalidPointerCast: columns and parameters are reached by their offset, which their tables take from
# the type itself; normalCheckLevel and the like only tell how long it looked.
build/analyse/cppcheck: $(wildcard model/*/*.[ch] model/*/*.def) build/generated/plots.h
	@mkdir -p $(@D)
	@cppcheck --quiet --enable=warning,performance,portability --std=c11 -Imodel -Ibuild -DLANES=1 \
	  -D__GNUC__ -D__x86_64__ --suppress=invalidPointerCast --suppress=missingIncludeSystem \
	  --template='{file}:{line}:{column}: {severity}: {message} [{id}]' \
	  -j2 $(MODEL:%=model/%.c) 2>$@ || { cat $@; exit 1; }
ANALYSIS = $(MODEL:%=build/analyse/%.gcc) $(MODEL:%=build/analyse/%.tidy) build/analyse/cppcheck
.PHONY: analyse
analyse: $(ANALYSIS) tests/proof/argued.txt
	@awk -f tests/proof/analyse.awk tests/proof/argued.txt $(ANALYSIS)

# ---- threads and memory, watched while the program runs -------------------------------------------
# Without the copies for AVX2, which nobody could watch.
THREADED = gcc $(filter-out -DSEASON_AVX2,$(OPTIONS)) $(CPPFLAGS) -O2 -g -fsanitize=thread
build/threads/model/%.o: model/%.c
	@mkdir -p $(@D)
	@$(THREADED) -c $< -o $@
build/threads/model/tell/picture.o: build/generated/plots.h
build/threads/$(NAME): $(MODEL:%=build/threads/model/%.o)
	@$(THREADED) $(LDFLAGS) $^ $(LIBS) -o $@
TSAN = TSAN_OPTIONS=halt_on_error=1:suppressions=tests/proof/threads.txt
THREAD_TESTS = many/test_crew many/test_posterior
$(THREAD_TESTS:%=build/threads/tests/%): build/threads/tests/%: tests/%.c $(LINKED:%=build/threads/model/%.o)
	@mkdir -p $(@D)
	@$(THREADED) -Itests $(filter %.c %.o,$^) $(LDFLAGS) -lcmocka $(LIBS) -o $@

.PHONY: threads valgrind
threads: build/threads/$(NAME) $(THREAD_TESTS:%=build/threads/tests/%)
	@$(TSAN) sh tests/proof/runs.sh threads build/threads/$(NAME)
	@for t in $(THREAD_TESTS); do $(TSAN) build/threads/tests/$$t >build/threads/log 2>&1 || \
	  { cat build/threads/log; exit 1; }; done
	@echo "threads: no two touch the same without order"

# memcheck knows AVX2; of leaks only those are judged to which nothing points any more, since libraries
# keep tables till the end
valgrind: $(NAME)
	@sh tests/proof/runs.sh main ./$(NAME) valgrind -q --error-exitcode=99 --leak-check=full \
	  --errors-for-leak-kinds=definite --show-leak-kinds=definite
	@echo "valgrind: nothing read that wasn't written, nothing lost"

# ---- small changes of the program that the tests should notice ---------------------------------------
# MUTANTS=60 SEED=1 ROOMS='life flow'. Without sanitizers, as one shared object, so that a mutant is one
# compilation and one link; without the copies for AVX2, beside which tests/lanes would tell every mutant.
MUTANTS ?= 60
SEED    ?= 1
ROOMS   ?= base know pile life flow run many ask
MUTANT   = gcc $(filter-out -DSEASON_AVX2,$(OPTIONS)) $(CPPFLAGS) -w -O1 -fPIC -fno-semantic-interposition
MUTANT_TESTS = $(filter-out lanes/% field/% fuzz/%,$(TESTS))
build/mutants/model/%.o: model/%.c
	@mkdir -p $(@D)
	@$(MUTANT) -c $< -o $@
build/mutants/model/tell/picture.o: build/generated/plots.h
build/mutants/whole.so: $(LINKED:%=build/mutants/model/%.o)
	@gcc -shared $^ -Wl,-soname,whole.so $(LIBS) -o $@
build/mutants/$(NAME): build/mutants/model/$(MAIN).o build/mutants/whole.so
	@gcc $^ $(LDFLAGS) $(LIBS) -o $@
$(MUTANT_TESTS:%=build/mutants/tests/%): build/mutants/tests/%: tests/%.c build/mutants/whole.so
	@mkdir -p $(@D)
	@$(MUTANT) -Itests tests/$*.c build/mutants/whole.so $(LDFLAGS) $(EXTRA) -lcmocka $(LIBS) -o $@
$(filter %_cvode,$(MUTANT_TESTS:%=build/mutants/tests/%)): EXTRA = $(CVODE_LIBS)
build/mutants/tests/base/test_unit: EXTRA = -ludunits2

.PHONY: mutants
mutants: build/mutants/$(NAME) $(MUTANT_TESTS:%=build/mutants/tests/%)
	@python3 tests/proof/mutate.py "$(MUTANT)" "$(LIBS)" $(MUTANTS) $(SEED) $(ROOMS)
