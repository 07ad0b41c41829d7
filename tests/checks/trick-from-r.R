# Makes trick-from-r.json: change-points by brute force, Mantel-Haenszel risk differences by metafor and tests by
# mantelhaen.test, the chance to be best by R's own pbeta and integrate and in closed form, sample sizes by power.prop.test.
# R 4.2.2 with its recommended package boot, and metafor 3.8-1 (Debian r-cran-metafor).
# Run: Rscript trick-from-r.R > trick-from-r.json
suppressMessages(library(metafor)); library(boot)
set.seed(20261129)
num <- function(x) paste0("[", paste(format(x, digits = 15, trim = TRUE), collapse = ", "), "]")
one <- function(x) format(x, digits = 15, trim = TRUE)
block <- function(name, rows) paste0('  "', name, '": [\n    ', paste(rows, collapse = ",\n    "), "\n  ]")

# --- one change or none: each start on its own, no running sums; the marginal likelihoods by integrate where they are
# small enough to be integrated, and by lbeta elsewhere. Never looks at more than it is given.
weight <- function(k, n) lbeta(k + 0.5, n - k + 0.5) - lbeta(0.5, 0.5)
weight_by_integral <- function(k, n)
  log(integrate(function(t) 2 / pi * sin(t)^(2 * k) * cos(t)^(2 * (n - k)), 0, pi / 2, rel.tol = 1e-12)$value)
look <- function(k, n, w = weight) {
  d <- length(k); none <- w(sum(k), sum(n))
  starts <- sapply(2:d, function(s) w(sum(k[1:(s - 1)]), sum(n[1:(s - 1)])) + w(sum(k[s:d]), sum(n[s:d])))
  top <- max(starts, none)
  change <- 0.5 * mean(exp(starts - top)); same <- 0.5 * exp(none - top)
  p <- exp(starts - max(starts)); p <- p / sum(p)
  list(chance = change / (change + same), p = p, start = which.max(p) + 1,
       early = which(cumsum(p) >= 0.05 - 1e-9)[1] + 1, late = which(cumsum(p) >= 0.95 - 1e-9)[1] + 1)
}
told <- function(k, n) {
  from <- 1; first <- look(k, n); found <- NULL; now <- first
  while (now$chance >= 0.9) {
    at <- from + now$start - 1
    found <- list(chance = now$chance, since = at, early = from + now$early - 1, late = from + now$late - 1,
                  before = sum(k[from:(at - 1)]) / sum(n[from:(at - 1)]), after = sum(k[at:length(k)]) / sum(n[at:length(n)]))
    if (at == length(k)) break
    from <- at; now <- look(k[from:length(k)], n[from:length(n)])
  }
  list(first = first, found = found)
}
changes <- character()
change_case <- function(k, n) {
  t <- told(k, n); f <- t$found
  changes <<- c(changes, sprintf('{ "caught": %s, "attempts": %s, "chance": %s, "starts": %s, "told": %s }', num(k), num(n), one(t$first$chance), num(t$first$p),
    if (is.null(f)) "null" else sprintf('{ "chance": %s, "since": %d, "earliest": %d, "latest": %d, "before": %s, "after": %s }', one(f$chance), f$since, f$early, f$late, one(f$before), one(f$after))))
}
for (i in 1:40) {
  d <- sample(3:30, 1); n <- sample(1:25, d, replace = TRUE)
  rates <- list(rep(runif(1), d), c(rep(0.9, d %/% 2), rep(0.6, d - d %/% 2)), c(rep(0.5, d %/% 3), rep(0.95, d %/% 3), rep(0.55, d - 2 * (d %/% 3))), runif(d))[[1 + i %% 4]]
  change_case(rbinom(d, n, rates), n)
}
change_case(c(1, 1, 0), c(1, 1, 1)); change_case(rep(10, 12), rep(10, 12)); change_case(c(500000, 300000, 299000), c(600000, 400000, 400000))
integrals <- character()
for (i in 1:6) {
  d <- sample(3:8, 1); n <- sample(1:9, d, replace = TRUE); k <- rbinom(d, n, 0.7); l <- look(k, n, weight_by_integral)
  integrals <- c(integrals, sprintf('{ "caught": %s, "attempts": %s, "chance": %s, "starts": %s }', num(k), num(n), one(l$chance), num(l$p)))
}
# The coal-mining explosions of boot::coal (Jarrett 1979), a day as one attempt that is "caught" where there was one.
day <- function(year) round((year - 1851) * 365.2425)
events <- sort(day(coal$date)); first <- events[1]; last <- events[191]
k <- tabulate(events - first + 1, nbins = last - first + 1); n <- pmax(k, 1)
K <- cumsum(k); N <- cumsum(n); D <- length(k); s <- 2:D
w <- weight(K[s - 1], N[s - 1]) + weight(K[D] - K[s - 1], N[D] - N[s - 1]); p <- exp(w - max(w)); p <- p / sum(p)
at <- function(share) 1851 + (first + which(cumsum(p) >= share)[1]) / 365.2425
coal_line <- sprintf('{ "events": %s, "logOdds": %s, "mode": %s, "early": %s, "median": %s, "late": %s }', num(events - first + 1),
  one(max(w) + log(mean(exp(w - max(w)))) - weight(K[D], N[D])), one(which.max(p) + 1), one(which(cumsum(p) >= 0.05)[1] + 1), one(which(cumsum(p) >= 0.5)[1] + 1), one(which(cumsum(p) >= 0.95)[1] + 1))
message(sprintf("coal: mode %.3f, median %.3f, 5 and 95 %% %.3f %.3f", 1851 + (first + which.max(p)) / 365.2425, at(0.5), at(0.05), at(0.95)))

# --- strata: difference with Sato's variance by metafor, test by mantelhaen.test
strata <- character()
strata_case <- function(name, c1, n1, c2, n2, level = 95) {
  c1 <- as.numeric(c1); n1 <- as.numeric(n1); c2 <- as.numeric(c2); n2 <- as.numeric(n2)
  # drop00 = FALSE: a stratum in which none was caught counts.
  fit <- suppressWarnings(rma.mh(measure = "RD", ai = c1, n1i = n1, ci = c2, n2i = n2, level = level, add = 0, to = "none", drop00 = FALSE))
  tables <- array(rbind(c1, n1 - c1, c2, n2 - c2), c(2, 2, length(c1)))
  p <- mantelhaen.test(tables, correct = FALSE)$p.value
  strata <<- c(strata, sprintf('{ "name": "%s", "with": %s, "withAttempts": %s, "without": %s, "withoutAttempts": %s, "confidence": %s, "difference": %s, "low": %s, "high": %s, "p": %s }',
    name, num(c1), num(n1), num(c2), num(n2), level / 100, one(c(fit$beta)), one(fit$ci.lb), one(fit$ci.ub), one(p)))
}
ucb <- UCBAdmissions # Admit x Gender x Dept
strata_case("UCBAdmissions: men less women, by department", ucb[1, 1, ], colSums(ucb[, 1, ]), ucb[1, 2, ], colSums(ucb[, 2, ]))
strata_case("Rothman, Greenland and Lash 2008, table 15-1: tolbutamide", c(8, 22), c(106, 98), c(5, 16), c(120, 85), 90)
b <- dat.bcg; strata_case("dat.bcg: 13 trials of a vaccine", b$tpos, b$tpos + b$tneg, b$cpos, b$cpos + b$cneg)
for (i in 1:12) {
  h <- sample(2:15, 1); n1 <- sample(1:c(3, 20, 200)[1 + i %% 3], h, replace = TRUE); n2 <- sample(1:c(5, 30, 90)[1 + i %% 3], h, replace = TRUE)
  base <- runif(h, 0.2, 0.9); strata_case(paste("random", i), rbinom(h, n1, pmin(0.98, base + 0.1)), n1, rbinom(h, n2, base), n2)
}

# --- chance to be best
best <- character()
best_case <- function(how, k, n, value) best <<- c(best, sprintf('{ "how": "%s", "caught": %s, "attempts": %s, "chances": %s }', how, num(k), num(n), num(value)))
by_integral <- function(k, n) {
  f <- function(i) {
    g <- function(t) { x <- sin(t)^2; y <- 2 * exp((2 * k[i]) * log(sin(t)) + 2 * (n[i] - k[i]) * log(cos(t)) - lbeta(k[i] + 0.5, n[i] - k[i] + 0.5))
      for (j in seq_along(k)[-i]) y <- y * pbeta(x, k[j] + 0.5, n[j] - k[j] + 0.5); y }
    middle <- asin(sqrt((k[i] + 0.5) / (n[i] + 1))); reach <- 9 / sqrt(n[i] + 1)
    # Cut at every other way's middle and about it, so that no step is stepped over.
    cuts <- asin(sqrt((k + 0.5) / (n + 1))); cuts <- sort(c(cuts, cuts - 2 / sqrt(n + 1), cuts + 2 / sqrt(n + 1), seq(middle - reach, middle + reach, length.out = 19)))
    cuts <- unique(cuts[cuts > max(0, middle - reach) & cuts < min(pi / 2, middle + reach)])
    cuts <- c(max(1e-300, middle - reach), cuts, min(pi / 2, middle + reach)); sum <- 0
    for (c in 2:length(cuts)) sum <- sum + integrate(g, cuts[c - 1], cuts[c], rel.tol = 1e-10, abs.tol = 1e-13, subdivisions = 2000, stop.on.error = FALSE)$value
    sum
  }
  sapply(seq_along(k), f)
}
# Two ways in closed form: from four halves, where it is 1/2, one parameter at a time grows by 1; each step adds or takes
# B(a + c, b + d) / (parameter B(a, b) B(c, d)) (from I_x(a + 1, b) = I_x(a, b) - x^a (1 - x)^b / (a B(a, b))).
in_closed_form <- function(k, n) {
  q <- c(k[1], n[1] - k[1], k[2], n[2] - k[2]); sign <- c(1, -1, -1, 1); p <- c(0.5, 0.5, 0.5, 0.5); sum <- 0.5
  for (i in 1:4) if (q[i] > 0) {
    at <- matrix(p, q[i], 4, byrow = TRUE); at[, i] <- 0.5 + 0:(q[i] - 1)
    sum <- sum + sign[i] * sum(exp(lbeta(at[, 1] + at[, 3], at[, 2] + at[, 4]) - lbeta(at[, 1], at[, 2]) - lbeta(at[, 3], at[, 4])) / at[, i])
    p[i] <- q[i] + 0.5
  }
  c(sum, 1 - sum)
}
for (pair in list(list(c(8, 5), c(10, 10)), list(c(1, 0), c(1, 0)), list(c(10, 9), c(10, 10)), list(c(90, 160), c(100, 200)), list(c(80000, 79800), c(100000, 100000)), list(c(3, 700000), c(3, 1000000)), list(c(999999, 1000000), c(1000000, 1000000)))) {
  best_case("closed form", pair[[1]], pair[[2]], in_closed_form(pair[[1]], pair[[2]]))
  best_case("integral", pair[[1]], pair[[2]], by_integral(pair[[1]], pair[[2]]))
}
for (i in 1:14) {
  w <- c(3, 4, 5, 8, 12, 20, 50)[1 + i %% 7]; n <- ceiling(10^runif(w, 0, if (i > 7) 6 else 2.5)); k <- rbinom(w, n, if (i %% 2) 0.8 else runif(w, 0.6, 0.95))
  best_case("integral", k, n, by_integral(k, n))
}

# --- sample sizes
power <- character()
for (pair in list(c(0.5, 0.75), c(0.9, 0.7), c(0.8, 0.9), c(0.05, 0.1), c(0.95, 0.6), c(0.2, 0.21), c(0.99, 1)))
  for (wanted in c(0.8, 0.9)) for (level in c(0.95, 0.9))
    power <- c(power, sprintf('{ "a": %s, "b": %s, "power": %s, "confidence": %s, "n": %s }', pair[1], pair[2], wanted, level,
      one(power.prop.test(p1 = pair[1], p2 = pair[2], power = wanted, sig.level = 1 - level, tol = 1e-12)$n)))
cat("{\n", paste(c(block("changes", changes), block("integrals", integrals), block("coal", coal_line), block("strata", strata), block("best", best), block("power", power)), collapse = ",\n"), "\n}\n", sep = "")
