# Makes tails-from-r.json: beta, binomial and normal tails by R's own nmath (pbeta: TOMS 708; qbeta: its own), to hold
# the library's values against another language's. Run: Rscript tails-from-r.R > tails-from-r.json
set.seed(20260101)
show <- function(x) format(x, digits = 17, scientific = TRUE, trim = TRUE)
rows <- character()
add <- function(kind, args, value) {
  numbers <- paste(show(args), collapse = ", ")
  rows[[length(rows) + 1]] <<- sprintf('  { "kind": "%s", "args": [%s], "value": %s }', kind, numbers, show(value))
}
sizes <- c(1, 2, 5, 10, 30, 100, 1000, 100000, 1000000)
for (n in sizes) for (share in c(0, 0.1, 0.5, 0.8, 0.95, 1)) {
  k <- round(n * share)
  for (x in c(0.05, 0.5, 0.8, 0.9)) {
    below <- pbeta(x, k + 0.5, n - k + 0.5)
    above <- pbeta(x, k + 0.5, n - k + 0.5, lower.tail = FALSE)
    if (below > 1e-280) add("betaBelow", c(x, k + 0.5, n - k + 0.5), below)
    if (above > 1e-280) add("betaAbove", c(x, k + 0.5, n - k + 0.5), above)
    lower <- pbinom(k, n, x)
    if (lower > 1e-280) add("binomialAtMost", c(k, n, x), lower)
  }
  for (tail in c(0.0005, 0.025, 0.05, 0.1)) {
    if (k > 0) add("betaQuantile", c(tail, k, n - k + 1), qbeta(tail, k, n - k + 1))
    if (k < n) add("betaQuantileAbove", c(tail, k + 1, n - k), qbeta(tail, k + 1, n - k, lower.tail = FALSE))
    add("betaQuantile", c(tail, k + 0.5, n - k + 0.5), qbeta(tail, k + 0.5, n - k + 0.5))
  }
}
for (confidence in c(0.1, 0.5, 0.8, 0.9, 0.95, 0.99, 0.999, 0.999999)) {
  add("twoSidedDeviate", confidence, qnorm((1 - confidence) / 2, lower.tail = FALSE))
}
for (deviate in c(0, 0.1, 0.5, 1, 1.5, 1.96, 2.5, 3, 5, 8, 20, 35)) {
  add("normalOutside", deviate, 2 * pnorm(deviate, lower.tail = FALSE))
}
for (x in c(0.5, 1.5, 2.5, 3, 7.5, 10.5, 100.5, 1001, 100000.5, 1000001, 10000000.5)) add("logGamma", x, lgamma(x))
cat("[\n", paste(unlist(rows), collapse = ",\n"), "\n]\n", sep = "")
