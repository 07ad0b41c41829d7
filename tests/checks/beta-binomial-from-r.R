# Makes beta-binomial-from-r.json: lower tails of the beta-binomial distribution, summed term by term from R's own lbeta
# and lchoose, on the side that keeps the digits. Run: Rscript beta-binomial-from-r.R > beta-binomial-from-r.json
show <- function(x) format(x, digits = 15, scientific = TRUE, trim = TRUE)
tail_of <- function(most, attempts, a, b) {
  x <- 0:most
  sum(sort(exp(lchoose(attempts, x) + lbeta(a + x, b + attempts - x) - lbeta(a, b))))
}
rows <- character()
for (shape in list(c(104, 8), c(39, 3), c(9, 3), c(122.5, 11.5), c(8.5, 2.5), c(101, 33), c(1, 1), c(1.5, 12), c(950.5, 172.5)))
  for (attempts in c(1, 2, 10, 14, 20, 100, 2000, 9999, 10001, 30000, 1000000)) {
    mean <- shape[1] / sum(shape); spread <- sqrt(mean * (1 - mean) / (sum(shape) + 1))
    for (away in c(-6, -3, -2, -1, 0, 1)) {
      most <- floor(attempts * (mean + away * spread))
      if (most < 0 || most >= attempts) next
      value <- tail_of(most, attempts, shape[1], shape[2])
      if (value > 1e-280) rows <- c(rows, sprintf("  [%d, %d, %s, %s, %s]", most, attempts, shape[1], shape[2], show(value)))
    }
  }
cat("[\n", paste(unique(rows), collapse = ",\n"), "\n]\n", sep = "")
