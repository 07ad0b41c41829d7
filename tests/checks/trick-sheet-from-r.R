# Makes trick-sheet-from-r.json: what the sheet Trick of the sample season shows, worked out anew from the log in the saved
# file alone: the change by brute force, differences within days and tricks by metafor (Sato's variance), Newcombe's and
# Wilson's intervals by prop.test, the tries by power.prop.test. R 4.2.2, metafor 3.8-1.
# Run in the project: Rscript tests/checks/trick-sheet-from-r.R sample-workbooks/season.xlsx > tests/checks/trick-sheet-from-r.json
suppressMessages(library(metafor))
file <- commandArgs(TRUE)[1]; athlete <- "M.K."; trick <- "Cartwheel blind catch"
one <- function(x) format(x, digits = 15, trim = TRUE)
part <- function(name) { con <- unz(file, name, "rb"); on.exit(close(con)); text <- rawToChar(readBin(con, "raw", 1e8)); Encoding(text) <- "UTF-8"; text }
all_of <- function(pattern, text) regmatches(text, gregexpr(pattern, text, perl = TRUE))[[1]]
attribute <- function(name, tag) sub(paste0('.*[ ]', name, '="([^"]*)".*'), "\\1", tag)
plain <- function(x) gsub("&amp;", "&", gsub("&lt;", "<", gsub("&gt;", ">", gsub("&quot;", '"', x, fixed = TRUE), fixed = TRUE), fixed = TRUE), fixed = TRUE)
shared <- plain(sapply(all_of("<si>.*?</si>", part("xl/sharedStrings.xml")), function(si) paste(gsub("<[^>]*>", "", all_of("<t[ >][^<]*</t>", si)), collapse = "")))
sheets <- all_of("<sheet [^>]*>", part("xl/workbook.xml"))
cells_of <- function(start) {
  place <- which(grepl(paste0('name="', start), sheets))[1]
  tags <- all_of("<c [^>]*?(/>|>.*?</c>)", part(sprintf("xl/worksheets/sheet%d.xml", place)))
  heads <- sub("^(<c [^>]*>).*", "\\1", tags)
  value <- ifelse(grepl("<v>", tags), sub(".*<v>(.*?)</v>.*", "\\1", tags), NA)
  is_shared <- grepl('t="s"', heads, fixed = TRUE) & !is.na(value)
  value[is_shared] <- shared[as.integer(value[is_shared]) + 1]
  setNames(value, attribute("r", heads))
}
practice <- cells_of("Practice ")
names_of_columns <- practice[paste0(LETTERS[1:10], 4)]
rows <- sort(unique(as.integer(sub("^A", "", grep("^A[0-9]+$", names(practice), value = TRUE))))); rows <- rows[rows > 4]
log <- as.data.frame(lapply(1:10, function(i) unname(practice[paste0(LETTERS[i], rows)])), stringsAsFactors = FALSE)
names(log) <- names_of_columns; log$Date <- as.numeric(log$Date); log <- log[!is.na(log$Marks), ]
log$bare <- gsub("[^cdb]", "", log$Marks)
log$caught <- nchar(gsub("[^c]", "", log$bare)); log$attempts <- nchar(log$bare)
joined <- log[!(log$Stage %in% c("Body only", "Toss only", "Wall")), ]
own <- joined[joined$Athlete == athlete & joined$Trick == trick, ]

# --- since when
by_day <- aggregate(cbind(caught, attempts) ~ Date, own, sum); by_day <- by_day[order(by_day$Date), ]
weight <- function(k, n) lbeta(k + 0.5, n - k + 0.5) - lbeta(0.5, 0.5)
look <- function(k, n) {
  d <- length(k); none <- weight(sum(k), sum(n))
  starts <- sapply(2:d, function(s) weight(sum(k[1:(s - 1)]), sum(n[1:(s - 1)])) + weight(sum(k[s:d]), sum(n[s:d])))
  odds <- mean(exp(starts - none)); p <- exp(starts - max(starts)); p <- p / sum(p)
  list(chance = odds / (1 + odds), at = which.max(p) + 1, early = which(cumsum(p) >= 0.05)[1] + 1, late = which(cumsum(p) >= 0.95)[1] + 1)
}
from <- 1; told <- NULL
repeat {
  part_of <- by_day[from:nrow(by_day), ]; if (nrow(part_of) < 2) break
  now <- look(part_of$caught, part_of$attempts); if (now$chance < 0.9) break
  at <- from + now$at - 1
  told <- list(since = by_day$Date[at], earliest = part_of$Date[now$early], latest = part_of$Date[now$late], chance = now$chance,
    before = sum(by_day$caught[from:(at - 1)]) / sum(by_day$attempts[from:(at - 1)]), after = sum(by_day$caught[at:nrow(by_day)]) / sum(by_day$attempts[at:nrow(by_day)]))
  from <- at
}

# --- first tries
wilson <- function(k, n) suppressWarnings(prop.test(k, n, correct = FALSE)$conf.int[1:2])
newcombe <- function(k1, n1, k2, n2) { # the second less the first
  a <- wilson(k1, n1); b <- wilson(k2, n2); p <- k1 / n1; q <- k2 / n2
  c(q - p, q - p - sqrt((q - b[1])^2 + (a[2] - p)^2), q - p + sqrt((b[2] - q)^2 + (p - a[1])^2))
}
first <- sapply(by_day$Date, function(day) substr(own$bare[own$Date == day][1], 1, 1) == "c")
later_caught <- sum(own$caught) - sum(first); later <- sum(own$attempts) - length(first)
tries <- newcombe(later_caught, later, sum(first), length(first))

# --- entrances, on the days on which both were tried
noted <- own[!is.na(own$Entrance), ]
ways <- aggregate(cbind(caught, attempts) ~ Entrance, noted, sum); ways <- ways[order(-ways$attempts, ways$Entrance), ]
usual <- ways$Entrance[1]
within <- function(table_with, table_without) { # rows: strata; columns: caught, attempts
  keep <- table_with[, 2] > 0 & table_without[, 2] > 0
  a <- table_with[keep, , drop = FALSE]; b <- table_without[keep, , drop = FALSE]
  fit <- suppressWarnings(rma.mh(measure = "RD", ai = a[, 1], n1i = a[, 2], ci = b[, 1], n2i = b[, 2], add = 0, to = "none", drop00 = FALSE))
  tables <- array(rbind(a[, 1], a[, 2] - a[, 1], b[, 1], b[, 2] - b[, 1]), c(2, 2, nrow(a)))
  c(c(fit$beta), fit$ci.lb, fit$ci.ub, if (nrow(a) > 1) mantelhaen.test(tables, correct = FALSE)$p.value else NA)
}
sums <- function(rows, by, levels) t(sapply(levels, function(one) c(sum(rows$caught[by == one]), sum(rows$attempts[by == one]))))
way_lines <- sapply(seq_len(nrow(ways)), function(i) {
  days <- unique(noted$Date); mine <- noted[noted$Entrance == ways$Entrance[i], ]; others <- noted[noted$Entrance == usual, ]
  d <- if (i == 1) rep(NA, 3) else within(sums(mine, mine$Date, days), sums(others, others$Date, days))
  sprintf('{ "way": "%s", "caught": %d, "attempts": %d, "low": %s, "high": %s, "difference": %s, "diffLow": %s, "diffHigh": %s }', ways$Entrance[i], ways$caught[i], ways$attempts[i],
    one(wilson(ways$caught[i], ways$attempts[i])[1]), one(wilson(ways$caught[i], ways$attempts[i])[2]), ifelse(is.na(d[1]), "null", one(d[1])), ifelse(is.na(d[2]), "null", one(d[2])), ifelse(is.na(d[3]), "null", one(d[3])))
})

# --- a condition, each trick against itself
mine <- joined[joined$Athlete == athlete, ]; left <- !is.na(mine$Condition) & mine$Condition == "left hand"
tricks <- unique(mine$Trick)
d <- within(sums(mine[left, ], mine$Trick[left], tricks), sums(mine[!left, ], mine$Trick[!left], tricks))
condition <- sprintf('{ "caught": %d, "attempts": %d, "difference": %s, "low": %s, "high": %s, "p": %s, "others": %s }', sum(mine$caught[left]), sum(mine$attempts[left]),
  one(d[1]), one(d[2]), one(d[3]), one(d[4]), one(sum(mine$caught[!left]) / sum(mine$attempts[!left])))

# --- stages, and how many tries an experiment takes at the rate that the sheet shows
stages <- sapply(c("Body only", "Toss only", "Wall", "Joined", "In context", "Run-through", "Contest"), function(stage) {
  rows <- log[log$Athlete == athlete & log$Trick == trick & log$Stage == stage, ]
  runs <- rle(strsplit(paste(rows$bare, collapse = ""), "")[[1]]); best <- if (any(runs$values == "c")) max(runs$lengths[runs$values == "c"]) else 0
  sprintf('{ "stage": "%s", "caught": %d, "attempts": %d, "bestRun": %d }', stage, sum(rows$caught), sum(rows$attempts), best)
})
sheet <- cells_of("Trick ")
needed <- ceiling(power.prop.test(p1 = as.numeric(sheet["B10"]), p2 = 0.8, power = 0.8, tol = 1e-12)$n)

cat(sprintf('{\n  "change": { "since": %s, "earliest": %s, "latest": %s, "before": %s, "after": %s, "chance": %s },\n', told$since, told$earliest, told$latest, one(told$before), one(told$after), one(told$chance)))
cat(sprintf('  "firstTries": { "caught": %d, "attempts": %d, "laterCaught": %d, "laterAttempts": %d, "difference": %s, "low": %s, "high": %s },\n', sum(first), length(first), later_caught, later, one(tries[1]), one(tries[2]), one(tries[3])))
cat('  "entrances": [\n    ', paste(way_lines, collapse = ",\n    "), '\n  ],\n', sep = "")
cat('  "leftHand": ', condition, ',\n', sep = "")
cat('  "stages": [\n    ', paste(stages, collapse = ",\n    "), '\n  ],\n', sep = "")
cat(sprintf('  "triesOfEach": %d\n}\n', needed))
