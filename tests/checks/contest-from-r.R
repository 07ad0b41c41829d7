# Makes contest-from-r.json: the logistic curve with variances widened by Pearson's statistic, by glm with family
# quasibinomial, and its prediction on the log-odds scale. R 4.2.2.
# Run: Rscript contest-from-r.R > contest-from-r.json
set.seed(20261130)
num <- function(x) paste0("[", paste(format(x, digits = 15, trim = TRUE), collapse = ", "), "]")
one <- function(x) format(x, digits = 15, trim = TRUE)
cases <- character()
for (i in 1:12) {
  days <- sample(5:20, 1)
  at <- sort(sample(0:54, days)); n <- sample(5:25, days, replace = TRUE)
  slope <- if (i %% 2 == 0) 0.25 else -0.25
  k <- rbinom(days, n, plogis((if (slope > 0) -0.8 else 2) + slope * at / 7 + rnorm(days, 0, 0.3)))
  x <- (at - max(at)) / 7
  fit <- suppressWarnings(glm(cbind(k, n - k) ~ x, family = quasibinomial, control = list(epsilon = 1e-14, maxit = 100)))
  scatter <- max(1, summary(fit)$dispersion)
  v <- vcov(fit) / summary(fit)$dispersion * scatter
  clear <- abs(coef(fit)[2]) >= qnorm(0.9) * sqrt(v[2, 2])
  ahead <- sample(1:(max(at) - min(at)), 1)
  w <- if (coef(fit)[2] > 0) 0 else ahead / 7
  m <- sum(coef(fit) * c(1, w)); s <- sqrt(as.numeric(c(1, w) %*% v %*% c(1, w)) + 0.005 * ahead)
  cases <- c(cases, sprintf('{ "days": %s, "caught": %s, "attempts": %s, "ahead": %d, "clear": %s, "rate": %s, "low": %s, "high": %s, "chance": %s }',
    num(at), num(k), num(n), ahead, tolower(clear), one(plogis(m)), one(plogis(m - qnorm(0.9) * s)), one(plogis(m + qnorm(0.9) * s)), one(pnorm((m - qlogis(0.8)) / s))))
}
cat("{\n  \"trends\": [\n    ", paste(cases, collapse = ",\n    "), "\n  ]\n}\n", sep = "")
