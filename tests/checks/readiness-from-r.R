# Makes readiness-from-r.json: random records judged by the readiness rule as a second reading of it, written from the
# rule's text and not from our code. Nothing runs along here: at each judging the record is cut and weighed anew, each
# attempt by its age, and the beta-binomial tail is summed from R's own lbeta and lchoose.
# Run: Rscript readiness-from-r.R > readiness-from-r.json
#
# The rule's text. Judged at the entry that completes each n attempts, and once more at the end. Chance: Beta(1/2 +
# caught weight, 1/2 + missed weight) at or above the standard, an attempt 30 attempts ago weighs half, over the record
# since the last slide. Ready first: the latest n at the standard, 2n logged, chance 0.82; the own record is the latest
# 3n. A window is a slide if below the standard and P(X <= caught) < k/150, X beta-binomial with own caught + s n + 1 and
# own missed + (1 - s) n + 1: the block (k = 1), the block with the one before (k = 2, own record before both); a part of
# a block only with the one before. Without a slide the block joins the own record, which counts as 120 attempts at the
# most. It stops standing at a slide or a chance under 0.25, and stands again from 0.5 on, with a new own record.
set.seed(20261129)
HALF <- 30

# A record is a data frame of entries: caught, attempts, bails; a mark is one attempt.
caught_in <- function(rows) sum(rows$caught)
tried_in <- function(rows) sum(rows$attempts)
latest <- function(rows, size) {
  if (nrow(rows) == 0) return(rows)
  from_end <- rev(cumsum(rev(rows$attempts)))
  # The shortest ending that has the size; all where there is none.
  rows[seq_len(nrow(rows)) >= max(1, which(from_end >= size)), , drop = FALSE]
}
weights_of <- function(rows) {
  total <- tried_in(rows)
  age_at_end <- total - cumsum(rows$attempts)
  # The mean weight of a tally's attempts times their number, by the geometric series.
  w <- 2^(-age_at_end / HALF) * (1 - 2^(-rows$attempts / HALF)) / (1 - 2^(-1 / HALF))
  share <- rows$caught / rows$attempts
  c(caught = sum(w * share), missed = sum(w * (1 - share)))
}
chance_of <- function(rows, s) {
  w <- weights_of(rows)
  pbeta(s, 0.5 + w["caught"], 0.5 + w["missed"], lower.tail = FALSE)[[1]]
}
tail_of <- function(caught, attempts, a, b) {
  x <- 0:caught
  sum(exp(lchoose(attempts, x) + lbeta(a + x, b + attempts - x) - lbeta(a, b)))
}
capped <- function(own) if (own[2] > 120) own * 120 / own[2] else own

judge_record <- function(rows, s, n) {
  done <- cumsum(rows$attempts)
  ends <- which(floor(done / n) > floor((done - rows$attempts) / n))
  whole <- rep(TRUE, length(ends))
  if (nrow(rows) > 0 && !(nrow(rows) %in% ends)) { ends <- c(ends, nrow(rows)); whole <- c(whole, FALSE) }
  was_ready <- FALSE; stands <- FALSE
  first <- 1                      # the first entry that counts
  history <- list()               # own records, the last is the present one
  slide <- NULL
  for (j in seq_along(ends)) {
    from <- if (j == 1) 1 else ends[j - 1] + 1
    from_before <- if (j <= 2) 1 else ends[j - 2] + 1
    block <- rows[from:ends[j], , drop = FALSE]
    both <- rows[from_before:ends[j], , drop = FALSE]
    slide <- NULL
    if (stands) {
      windows <- list(list(rows = both, own = history[[length(history) - 1]], k = 2, from = from_before))
      if (whole[j]) windows <- c(list(list(rows = block, own = history[[length(history)]], k = 1, from = from)), windows)
      for (w in windows) if (is.null(slide)) {
        k <- caught_in(w$rows); m <- tried_in(w$rows)
        if (k < s * m - 1e-9 && tail_of(k, m, w$own[1] + s * n + 1, w$own[2] - w$own[1] + (1 - s) * n + 1) < w$k / 150) {
          slide <- list(caught = k, attempts = m, usual = if (w$own[2] > 0) w$own[1] / w$own[2] else s)
          first <- w$from
          stands <- FALSE
        }
      }
    }
    counted <- rows[first:ends[j], , drop = FALSE]
    chance <- chance_of(counted, s)
    so_far <- rows[1:ends[j], , drop = FALSE]
    last <- latest(so_far, n)
    at_standard <- tried_in(last) >= n && caught_in(last) >= s * tried_in(last) - 1e-9
    if (is.null(slide)) {
      if (stands && chance < 0.25) stands <- FALSE
      else if (stands) {
        own <- history[[length(history)]]
        history <- c(history, list(capped(own + c(caught_in(block), tried_in(block)))))
      } else if (if (was_ready) chance >= 0.5 else at_standard && tried_in(so_far) >= 2 * n && chance >= 0.82) {
        was_ready <- TRUE; stands <- TRUE
        own <- latest(counted, 3 * n)
        own <- c(caught_in(own), tried_in(own))
        less <- own - c(caught_in(block), tried_in(block))
        history <- list(if (less[2] > 0) capped(less) else c(0, 0), capped(own))
      }
    }
  }
  if (nrow(rows) == 0) return(list(status = "No attempts"))
  bails <- sum(last$bails)
  status <-
    if (tried_in(rows) < n) "Too few"
    else if (!was_ready) (if (at_standard) "Confirm" else "Building")
    else if (!is.null(slide) || chance < 0.25 || bails >= 2) "At risk"
    else if (chance < 0.5) "Confirm"
    else if (chance >= 0.9 && at_standard) "Solid"
    else "Ready"
  w <- weights_of(counted)
  list(status = status, chance = chance, rate = w[["caught"]] / sum(w),
    low = qbeta(0.025, 0.5 + w[["caught"]], 0.5 + w[["missed"]]),
    high = qbeta(0.025, 0.5 + w[["caught"]], 0.5 + w[["missed"]], lower.tail = FALSE),
    slide = slide)
}

# Cells as in the log: a run of marks, or a tally.
random_record <- function(kind) {
  s <- sample(c(0.5, 0.7, 0.8, 0.8, 0.8, 0.85, 0.9, 0.95), 1)
  n <- sample(c(1, 3, 5, 10, 10, 10, 12, 20), 1)
  sets <- sample(0:14, 1)
  over <- min(0.99, s + 0.12); under <- s - sample(c(0.2, 0.35), 1)
  # A slide mostly lies near the end, where the word shows it.
  half <- if (runif(1) < 0.7) max(0, sets - sample(0:2, 1)) else sample(0:max(1, sets), 1)
  rate <- switch(kind, level = rep(runif(1, s - 0.15, 1), sets + 1), slides = ifelse(seq_len(sets + 1) <= half, over, under),
    drifts = over - seq(0, 0.35, length.out = sets + 1), grows = pmin(1, 0.4 + seq(0, 0.6, length.out = sets + 1)),
    returns = ifelse(seq_len(sets + 1) %% 7 < 4, over, under))
  cells <- character(); caught <- attempts <- bails <- numeric()
  for (set in seq_len(sets + 1)) {
    size <- if (set > sets) sample(0:n, 1) else if (runif(1) < 0.15) sample(1:(3 * n), 1) else n
    if (size == 0) next
    if (runif(1) < switch(kind, level = 0.3, slides = 0.2, drifts = 1, grows = 0, returns = 0.4)) {
      if (runif(1) < 0.05) size <- size * 100
      k <- rbinom(1, size, rate[set])
      cells <- c(cells, paste0(k, "/", size)); caught <- c(caught, k); attempts <- c(attempts, size); bails <- c(bails, 0)
    } else {
      hit <- runif(size) < rate[set]
      bail <- !hit & runif(size) < 0.15
      cells <- c(cells, paste(ifelse(hit, "c", ifelse(bail, "b", "d")), collapse = ""))
      caught <- c(caught, as.numeric(hit)); attempts <- c(attempts, rep(1, size)); bails <- c(bails, as.numeric(bail))
    }
  }
  list(cells = cells, s = s, n = n, rows = data.frame(caught = caught, attempts = attempts, bails = bails))
}

num <- function(x) format(x, digits = 9, trim = TRUE)
lines <- character()
for (i in 1:2000) {
  record <- random_record(c("level", "slides", "drifts", "grows", "slides", "returns")[(i - 1) %% 6 + 1])
  found <- judge_record(record$rows, record$s, record$n)
  figures <- if (is.null(found$chance)) "" else sprintf(', "chance": %s, "rate": %s, "low": %s, "high": %s', num(found$chance), num(found$rate), num(found$low), num(found$high))
  slide <- if (is.null(found$slide)) "" else sprintf(', "slide": [%s, %s, %s]', num(found$slide$caught), num(found$slide$attempts), num(found$slide$usual))
  lines <- c(lines, sprintf('  { "marks": "%s", "standard": %s, "setSize": %s, "status": "%s"%s%s }',
    paste(record$cells, collapse = " "), num(record$s), record$n, found$status, figures, slide))
}
cat("[\n", paste(lines, collapse = ",\n"), "\n]\n", sep = "")
