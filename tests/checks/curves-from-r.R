# Makes curves-from-r.json: logistic curves by R's glm and their inverse prediction by Fieller's theorem, solved here by
# root finding on the curve's own interval and not by the quadratic; Fisher's exact test; Hotelling's T2.
# Run: Rscript curves-from-r.R > curves-from-r.json
num <- function(x) paste0("[", paste(format(x, digits = 15, trim = TRUE), collapse = ", "), "]")
out <- character()
curve_case <- function(name, x, caught, attempts, standard, confidence) {
  fit <- glm(cbind(caught, attempts - caught) ~ x, family = binomial, control = glm.control(epsilon = 1e-14, maxit = 100))
  b <- coef(fit); v <- vcov(fit); z <- qnorm((1 + confidence) / 2); target <- qlogis(standard)
  edge <- function(sign) function(at) b[1] + b[2] * at + sign * z * sqrt(v[1, 1] + 2 * at * v[1, 2] + at^2 * v[2, 2]) - target
  span <- diff(range(x))
  low <- uniroot(edge(1), c(min(x) - 3 * span, max(x) + 50 * span), tol = 1e-12)$root
  high <- uniroot(edge(-1), c(min(x) - 3 * span, max(x) + 50 * span), tol = 1e-12)$root
  out <<- c(out, sprintf('    { "name": "%s", "x": %s, "caught": %s, "attempts": %s, "standard": %s, "confidence": %s, "coefficients": %s, "variances": %s, "at": %s, "interval": %s }',
    name, num(x), num(caught), num(attempts), standard, confidence, num(b), num(c(v[1, 1], v[2, 2], v[1, 2])), num((target - b[1]) / b[2])[1], num(c(low, high))))
}
curve_case("Bliss 1935, beetles killed by carbon disulphide (Dobson 2002, table 7.2)", c(1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839),
  c(6, 13, 18, 28, 52, 53, 61, 60), c(59, 60, 62, 56, 63, 59, 62, 60), 0.5, 0.95)
curve_case("Venables and Ripley, Modern Applied Statistics with S, 7.2: male budworm moths", 0:5, c(1, 4, 9, 13, 18, 20), rep(20, 6), 0.5, 0.95)
curve_case("Invented log: ten practice days of a trick that grows", 46400 + c(0, 2, 5, 7, 9, 12, 14, 16, 19, 21), c(3, 4, 4, 5, 5, 6, 5, 7, 7, 7), rep(10, 10), 0.8, 0.8)
curve_case("Invented log: a slow trick, uneven sets", 46400 + c(0, 3, 10, 17, 24, 31), c(4, 7, 6, 12, 11, 14), c(10, 15, 12, 20, 18, 20), 0.9, 0.8)
fisher <- character()
for (t in list(c(2, 17, 10, 13), c(2, 9, 8, 10), c(5, 20, 20, 40), c(45, 50, 38, 50), c(120, 150, 300, 340), c(0, 8, 0, 9), c(900, 1000, 930, 1000))) {
  p <- fisher.test(matrix(c(t[1], t[2] - t[1], t[3], t[4] - t[3]), 2))$p.value
  fisher <- c(fisher, sprintf('    { "tallies": %s, "p": %s }', num(t), format(p, digits = 15)))
}
hot <- character()
hotelling <- function(name, x, y) {
  m <- cbind(x, y); n <- nrow(m); d <- colMeans(m)
  t2 <- n * drop(t(d) %*% solve(cov(m)) %*% d)
  p <- pf((n - 2) / (2 * (n - 1)) * t2, 2, n - 2, lower.tail = FALSE)
  hot <<- c(hot, sprintf('    { "name": "%s", "x": %s, "y": %s, "t2": %s, "p": %s }', name, num(x), num(y), format(t2, digits = 15), format(p, digits = 15)))
}
hotelling("Johnson and Wichern, Applied Multivariate Statistical Analysis, example 5.1, less the mean asked for (9, 5): T2 = 7/9", c(6, 10, 8) - 9, c(9, 6, 3) - 5)
sx <- c(1.203, 2.953, 2.769, 2.721, 2.835, 2.81, 2.621, 3.508, 1.652, 2.917); sy <- c(3.319, 3.384, 2.931, 2.614, 2.339, 2.017, 1.9, 1.783, 1.905, 0.799)
hotelling("R package shotGroups, data DFscar17, about (2.4, 2.4)", sx - 2.4, sy - 2.4)
hotelling("R package shotGroups, data DFscar17, about (2, 2)", sx - 2, sy - 2)
cat('{\n  "curves": [\n', paste(out, collapse = ",\n"), '\n  ],\n  "fisher": [\n', paste(fisher, collapse = ",\n"), '\n  ],\n  "hotelling": [\n', paste(hot, collapse = ",\n"), "\n  ]\n}\n", sep = "")
