# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/race_desolve.R - the short season by deSolve's lsoda and vode on our compiled right-hand side.
#
#     Rscript race_desolve.R LENT.SO SCENARIO DAYS REFERENCE ROUND
#
# Rows as race_scipy.py prints them. deSolve begins anew at each midnight, since it has no way to go on.
suppressMessages(library(deSolve))
word <- commandArgs(trailingOnly = TRUE)
days <- as.integer(word[3])
dyn.load(word[1])
exact <- readBin(word[4], "double", n = 1e6)

season <- function(method, relative) {
    size <- .C("lent_open", word[2], days, length = 0L, cells = 0L, half = 0L)
    y <- numeric(size$length)
    began <- proc.time()[["user.self"]]
    now <- .C("lent_next", y = y, from = 0, until = 0, fresh = 0L)
    while (now$until > 0) {
        if (now$fresh)
            allowed <- .C("lent_allowed", a = y)$a
        got <- ode(now$y, c(now$from, now$until), func = "lent_rates_r", parms = 0,
                   dllname = "lent", initfunc = "lent_begin_r", method = method,
                   rtol = relative, atol = relative * allowed, jactype = "bandint",
                   bandup = size$half, banddown = size$half, hmax = 14400, hini = 1,
                   maxsteps = 100000)
        if (nrow(got) < 2)
            return(NULL)
        now <- .C("lent_next", y = as.numeric(got[2, -1]), from = 0, until = 0, fresh = 0L)
    }
    took <- proc.time()[["user.self"]] - began
    off <- .C("lent_over", over = numeric(length(exact)))$over - exact
    list(took = took, rates = .C("lent_count", n = 0L)$n, rms = sqrt(mean(off^2)), worst = max(abs(off)))
}

for (method in c("lsoda", "vode"))
    for (relative in if (word[5] == "1") c(1e-2, 1e-3, 1e-4, 1e-5) else c(1e-3, 1e-4)) {
        s <- season(method, relative)
        if (!is.null(s))
            cat(sprintf("deSolve %s, band\t%g\t%d\t%.6f\t%.6g\t%.6g\n", method, relative, s$rates,
                        s$took, s$rms, s$worst))
    }
