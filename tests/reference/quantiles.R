# SPDX-License-Identifier: GPL-3.0-or-later
# Quantiles of samples by R's quantile(values, p, type = 7).
#   Rscript quantiles.R > quantiles.tsv
# One quantile a line: sample, p, quantile, values (in the order drawn). 17 significant digits, so
# that reading them gives the same doubles.
set.seed(20261125)
samples <- list(
  textbook = c(3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5),
  one = 42,
  two = c(7, -1),
  equal = rep(2.5, 6),
  normal = rnorm(20),
  bytes = rlnorm(33, 27, 2),
  signed = round(rnorm(8, 0, 1e6)),
  days = sample(0:365, 50, replace = TRUE)
)
levels <- c(0, 0.01, 0.05, 0.1, 0.25, 1 / 3, 0.5, 0.75, 0.9, 0.95, 0.999, 1)

digits <- function(x) paste(sprintf("%.17g", x), collapse = " ")
cat("sample", "p", "quantile", "values\n", sep = "\t")
for (name in names(samples))
  for (p in levels)
    cat(name, digits(p), digits(quantile(samples[[name]], p, type = 7, names = FALSE)),
        paste0(digits(samples[[name]]), "\n"), sep = "\t")
