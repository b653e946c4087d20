# SPDX-License-Identifier: GPL-3.0-or-later
# Days until a ceiling is reached, forecast by three general methods of R's `forecast` package, on the
# measured histories that tests/data/measured is cut from.
#   Rscript ceiling_days.R FOLDER > ceiling_days.tsv        (summary on standard error)
# FOLDER holds history-*/origin*/ with live.tsv (time in epoch seconds, live bytes; daily),
# listing-tiered.tsv (snapshot, taken, unique, live, written) and truth.json (as_of, live_daily: 366
# values, held$tiered: bytes on five dates).
#
# History   the live bytes of every 7th day counted back from the origin, as a series without a season.
# Series    live, or used = live + what the listed snapshots hold: at the origin
#           sum of max(live[i-1] + written[i] - live[i], 0); the methods get weekly live plus that
#           constant, as a listing shows no older value of it.
# Truth     live_daily; for used plus the held bytes, on straight lines between the origin's and the
#           five dated values. Truth of a ceiling: the first day at or above it, 365 if not within the
#           year.
# Methods   auto.arima(y), ets(y): 1000 paths of simulate(fit, nsim = 52, future = TRUE) each.
#           rwf(y, drift = TRUE): y_T + cumsum(c + sigma z), c drawn once a path from
#           N(drift, drift.se^2), so that the variance at h is sigma^2 h (1 + h / (T - 1)).
#           Gaussian noise; the seed is set anew before each fit's simulation.
# Passage   straight lines between weekly points, rounded up to whole days, 365 if not within 364.
# Quantiles type 1 (inverse of the distribution function). Loss: mean pinball loss of p10, p50, p90.
suppressPackageStartupMessages({
  library(forecast)
  library(jsonlite)
})

folder <- commandArgs(trailingOnly = TRUE)
if (length(folder) != 1 || !dir.exists(folder)) stop("usage: Rscript ceiling_days.R FOLDER")

seed <- 20261125
paths <- 1000
weeks <- 52
censored <- 365
factors <- c(1.05, 1.1, 1.2, 1.5)
levels <- c(0.1, 0.5, 0.9)

simulate_fit <- function(fit) {
  set.seed(seed)
  sapply(seq_len(paths), function(i) as.numeric(simulate(fit, nsim = weeks, future = TRUE)))
}

simulate_drift <- function(y) {
  model <- rwf(y, drift = TRUE)$model
  set.seed(seed)
  drift <- rnorm(paths, model$par$drift, model$par$drift.se)
  sapply(drift, function(c) tail(as.numeric(y), 1) + cumsum(rnorm(weeks, c, sqrt(model$sigma2))))
}

methods <- list(
  arima = function(y) simulate_fit(auto.arima(y)),
  ets = function(y) simulate_fit(ets(y)),
  rwf = simulate_drift
)

# Whole days until the straight lines through `start` and the weekly points reach `ceiling`.
passage <- function(path, start, ceiling) {
  if (start >= ceiling) return(0)
  at <- which(path >= ceiling)
  if (length(at) == 0) return(censored)
  week <- at[1]
  before <- if (week == 1) start else path[week - 1]
  base::ceiling(7 * (week - 1 + (ceiling - before) / (path[week] - before)) - 1e-9)
}

pinball <- function(truth, q, level) max(level * (truth - q), (level - 1) * (truth - q))

# The first day (index 0 is the origin) at or above `ceiling`.
true_day <- function(daily, ceiling) {
  at <- which(daily >= ceiling)
  if (length(at) == 0) censored else min(at[1] - 1, censored)
}

utc <- function(text) as.numeric(as.POSIXct(text, format = "%Y-%m-%dT%H:%M:%SZ", tz = "UTC"))

rows <- list()
for (at in sort(Sys.glob(file.path(folder, "history*", "origin*")))) {
  truth <- fromJSON(file.path(at, "truth.json"))
  origin <- utc(truth$as_of)
  live <- read.delim(file.path(at, "live.tsv"))
  listing <- read.delim(file.path(at, "listing-tiered.tsv"))
  stopifnot(length(truth$live_daily) == 366, tail(live$time, 1) == origin, all(diff(live$time) == 86400),
            !is.unsorted(listing$taken, strictly = TRUE))
  weekly <- rev(rev(live$live)[seq(1, nrow(live), by = 7)])

  n <- nrow(listing)
  held <- sum(pmax(listing$live[-n] + listing$written[-1] - listing$live[-1], 0))
  dated <- unlist(truth$held$tiered)
  held_daily <- approx(c(0, (utc(names(dated)) - origin) / 86400), c(held, dated), xout = 0:365)$y
  stopifnot(!anyNA(held_daily))

  series <- list(
    live = list(history = weekly, daily = truth$live_daily),
    used = list(history = weekly + held, daily = truth$live_daily + held_daily)
  )
  for (name in names(series)) {
    y <- ts(series[[name]]$history)
    start <- tail(as.numeric(y), 1)
    drawn <- lapply(methods, function(method) method(y))
    for (factor in factors) {
      limit <- factor * start
      day <- true_day(series[[name]]$daily, limit)
      row <- data.frame(history = basename(dirname(at)), origin = basename(at), series = name,
                        factor = factor, truth_days = day)
      for (method in names(methods)) {
        days <- apply(drawn[[method]], 2, passage, start = start, ceiling = limit)
        q <- quantile(days, levels, type = 1, names = FALSE)
        row[paste(method, c("p10", "p50", "p90"), sep = "_")] <- q
        row[paste(method, "loss", sep = "_")] <- round(mean(mapply(pinball, day, q, levels)), 4)
      }
      rows[[length(rows) + 1]] <- row
    }
  }
}

table <- do.call(rbind, rows)
write.table(table, sep = "\t", quote = FALSE, row.names = FALSE)

message(R.version.string, ", forecast ", packageVersion("forecast"))
message("Mean pinball loss in days, ", nrow(table) / 2, " ceilings a series; p10..p90 holds the truth in:")
for (name in c("live", "used"))
  for (method in names(methods)) {
    of <- table[table$series == name, ]
    low <- of[[paste0(method, "_p10")]]
    high <- of[[paste0(method, "_p90")]]
    message(sprintf("%-5s %-6s %7.2f   %3.0f %%", name, method, mean(of[[paste0(method, "_loss")]]),
                    100 * mean(low <= of$truth_days & of$truth_days <= high)))
  }
