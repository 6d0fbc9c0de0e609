# make-fixtures.R: recomputes with R what tests/stats/test-reference.c compares our figures with.
#
# Copyright (C) 2026 The Siteward developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Usage: Rscript tests/reference/make-fixtures.R tests/reference/fixtures   (Debian: r-base-core, r-cran-survival)
# Each fixture is one file of lines "word value value ...", 17 digits, with the versions that made it. All data are
# generated.
library(survival)

folder <- commandArgs(trailingOnly = TRUE)[1]
versions <- sprintf("# %s; survival %s; made by tests/reference/make-fixtures.R",
                    R.version.string, packageVersion("survival"))

digits <- function(...) {
  one <- function(x) ifelse(is.na(x), "nan", ifelse(x == Inf, "inf", sprintf("%.17g", x)))
  do.call(paste, lapply(list(...), one))
}
write_fixture <- function(name, kind, lines)
  writeLines(c(versions, paste("kind", kind), lines), file.path(folder, paste0(name, ".txt")))

# ---- survival: times, status, groups from 0
# -----------------------------------------------------------------------------
curve_lines <- function(time, status, group, g) {
  own <- group == g
  fit <- function(type) survfit(Surv(time[own], status[own]) ~ 1, conf.type = type)
  loglog <- fit("log-log"); plain <- fit("plain")
  at <- loglog$n.event > 0
  q <- quantile(loglog, 0.5)
  se <- ifelse(loglog$surv > 0, loglog$surv * loglog$std.err, NA)
  whole <- loglog$surv > 0
  c(paste("curve", digits(g, sum(own), sum(status[own]), q$quantile, q$lower, q$upper)),
    if (any(at)) paste("step", digits(rep(g, sum(at)), loglog$time[at], loglog$n.risk[at], loglog$n.event[at],
      loglog$surv[at], se[at], ifelse(whole, plain$lower, NA)[at], ifelse(whole, plain$upper, NA)[at],
      loglog$lower[at], loglog$upper[at])))
}
survival_fixture <- function(name, time, status, group = rep(0, length(time))) {
  lines <- paste("row", digits(time, status, group))
  for (g in sort(unique(group))) lines <- c(lines, curve_lines(time, status, group, g))
  if (length(unique(group)) > 1) {
    d <- survdiff(Surv(time, status) ~ group)
    df <- sum(d$exp > 0) - 1
    lines <- c(lines, paste("logrank", digits(d$chisq, df, pchisq(d$chisq, df, lower.tail = FALSE))),
               paste("expected", digits(sort(unique(group)), d$obs, d$exp)))
  }
  write_fixture(name, "survival", lines)
}

# ---- interval: (left, right], right Inf when not yet, left == right exact
# ----------------------------------------------- R stops when no step changes the curve by 5e-5, too coarse to
# compare masses with, and its extrapolation every fifth step can lose a mass for good. So the masses come from the
# same code run on to 1e-12 by its plain steps; both likelihoods are kept.
replace_once <- function(text, from, to) {
  stopifnot(sum(grepl(from, text, fixed = TRUE)) == 1)
  sub(from, to, text, fixed = TRUE)
}
text <- replace_once(deparse(survival:::survfitTurnbull), "eps > 5e-05", "eps > 1e-12")
text <- replace_once(text, "if (TRUE)", "if (FALSE)")
tight <- eval(parse(text = text), asNamespace("survival"))

loglik_of <- function(left, right, jumps, masses) {
  chance <- function(l, r) if (l == r) sum(masses[jumps == l]) else sum(masses[jumps > l & jumps <= r])
  sum(log(mapply(chance, left, right)))
}
interval_fixture <- function(name, left, right) {
  y <- Surv(left, ifelse(right == Inf, NA, right), type = "interval2")
  one <- factor(rep(1, length(left)))
  weights <- rep(1, length(left))
  masses_of <- function(fit) {
    s <- c(1, fit$surv); list(t = c(fit$time, Inf), m = c(-diff(s), tail(fit$surv, 1)))
  }
  shipped <- masses_of(survfit(y ~ 1)); fine <- masses_of(tight(one, y, weights))
  keep <- fine$m > 1e-9
  write_fixture(name, "interval", c(paste("row", digits(left, right)),
    paste("jump", digits(fine$t[keep], fine$m[keep])),
    paste("loglik", digits(loglik_of(left, right, shipped$t, shipped$m), loglik_of(left, right, fine$t, fine$m)))))
}

# ---- competing: times, causes (0 censored), groups from 0
# ----------------------------------------------------------------
competing_fixture <- function(name, time, cause, group = rep(0, length(time))) {
  lines <- paste("row", digits(time, cause, group))
  for (g in sort(unique(group))) {
    own <- group == g
    fit <- survfit(Surv(time[own], factor(cause[own], 0:max(cause))) ~ 1, conf.type = "log-log")
    at <- rowSums(fit$n.event) > 0
    for (k in 1:max(cause))
      lines <- c(lines, paste("incidence", digits(rep(g, sum(at)), rep(k, sum(at)), fit$time[at], fit$n.risk[at, 1],
        fit$n.event[at, k + 1], fit$pstate[at, k + 1],
        fit$std.err[at, k + 1], fit$lower[at, k + 1], fit$upper[at, k + 1])))
  }
  write_fixture(name, "competing", lines)
}

# ---- exact: shares with limits, tests
# ------------------------------------------------------------------------------------
exact_fixture <- function(name, x, n, p0, other) {
  lines <- NULL
  for (i in seq_along(x)) {
    exact <- binom.test(x[i], n[i], p0[i])
    wilson <- prop.test(x[i], n[i], correct = FALSE)$conf.int
    x2 <- other[i]; n2 <- n[length(n) + 1 - i]
    fisher <- fisher.test(matrix(c(x[i], n[i] - x[i], x2, n2 - x2), 2))$p.value
    lines <- c(lines, paste("share", digits(x[i], n[i], wilson[1], wilson[2], exact$conf.int[1], exact$conf.int[2])),
               paste("binomial", digits(x[i], n[i], p0[i], exact$p.value)),
               paste("fisher", digits(x[i], n[i], x2, n2, fisher)))
  }
  write_fixture(name, "exact", lines)
}

set.seed(20260401)
draw <- function(n, rate, censor, step) {
  event <- rexp(n, rate); stop <- rexp(n, censor)
  list(time = pmax(step, ceiling(pmin(event, stop) / step) * step), status = as.numeric(event <= stop))
}

d <- draw(150, 1 / 40, 1 / 90, 1);   survival_fixture("survival-one-group", d$time, d$status)
d <- draw(300, 1 / 6, 1 / 20, 1);    survival_fixture("survival-many-ties", d$time, d$status, rep(0:1, 150))
d <- draw(250, 1 / 400, 1 / 40, 1);  survival_fixture("survival-heavy-censoring", d$time, d$status, rbinom(250, 1, 0.3))
d <- draw(80, 1 / 30, 1e-9, 1);      survival_fixture("survival-no-censoring", d$time, d$status, rep(0:1, c(50, 30)))
g <- sample(0:4, 400, TRUE, c(0.5, 0.25, 0.15, 0.07, 0.03))
d <- draw(400, exp(g / 4) / 50, 1 / 80, 1); survival_fixture("survival-five-groups", d$time, d$status, g)
d <- draw(1000, 1 / 200, 1 / 300, 0.25)
survival_fixture("survival-thousand", d$time, d$status, sample(0:2, 1000, TRUE))
survival_fixture("survival-level-at-half", c(1, 2, 2, 3, 5, 8, 9, 9), c(1, 1, 1, 1, 0, 1, 1, 0), rep(0, 8))

visits <- function(n, gap, rate, lost) {
  t <- rexp(n, rate); first <- sample(seq_len(gap), n, TRUE)
  left <- ifelse(t <= first, 0, first + floor((t - first) / gap - 1e-9) * gap)
  right <- ifelse(t <= first, first, left + gap)
  right[runif(n) < lost] <- Inf
  list(left = left, right = right)
}
d <- visits(60, 7, 1 / 25, 0.2);   interval_fixture("interval-weekly-visits", d$left, d$right)
d <- visits(150, 14, 1 / 40, 0.6); interval_fixture("interval-heavy-censoring", d$left, d$right)
a <- round(rexp(80, 1 / 30), 3); b <- round(a + rexp(80, 1 / 15), 3); interval_fixture("interval-uneven", a, b)
d <- visits(90, 10, 1 / 30, 0.15); exact <- runif(90) < 0.4; at <- round(d$left + 0.5)
interval_fixture("interval-with-exact-times", ifelse(exact, at, d$left), ifelse(exact, at, d$right))
a <- round(runif(120) * 50); b <- a + 1 + round(rexp(120, 1 / 20)); a[1:25] <- 0; b[100:120] <- Inf
interval_fixture("interval-with-left-censoring", a, b)

mixed <- function(n, rates, censor, step) {
  times <- sapply(c(censor, rates), function(r) rexp(n, r))
  list(time = pmax(step, ceiling(apply(times, 1, min) / step) * step), cause = apply(times, 1, which.min) - 1)
}
d <- mixed(200, c(1 / 50, 1 / 90), 1 / 60, 1);        competing_fixture("competing-two-causes", d$time, d$cause)
d <- mixed(300, c(1 / 10, 1 / 14, 1 / 40), 1 / 20, 1); competing_fixture("competing-three-causes-ties", d$time, d$cause)
d <- mixed(250, c(1 / 300, 1 / 200), 1 / 30, 1)
competing_fixture("competing-groups-censored", d$time, d$cause, rep(0:1, 125))

n <- c(1, 5, 10, 12, 20, 29, 33, 60, 80, 148, 263, 1000); x <- c(1, 0, 10, 6, 3, 1, 30, 45, 60, 15, 81, 437)
exact_fixture("exact-shares", x, n,
              c(.5, .3, .9, .5, .25, .1, .75, .75, .87, .12, .25, .4),
              c(437, 20, 15, 3, 60, 7, 15, 10, 5, 4, 2, 1))
