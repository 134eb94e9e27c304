# Makes the patterns and the numbers of this folder: Rscript make_reference.R, in this folder.
suppressMessages({
  library(spatstat.explore)
  library(jsonlite)
})

RADIUS <- 12.62
SIDES <- 4096
disc_window <- disc(RADIUS, npoly = SIDES)
rectangle_window <- owin(c(0, 40), c(0, 25))

set.seed(20260901)
patterns <- list(
  disc_random_6 = runifpoint(6, win = disc_window),
  disc_random_25 = runifpoint(25, win = disc_window),
  disc_random_60 = runifpoint(60, win = disc_window),
  disc_regular = rSSI(2.2, 30, win = disc_window),
  disc_clumped = rMatClust(0.012, 2, 6, win = disc_window),
  rectangle_random = runifpoint(80, win = rectangle_window),
  rectangle_regular = rSSI(2.0, 90, win = rectangle_window),
  rectangle_clumped = rMatClust(0.015, 2, 8, win = rectangle_window)
)

uniform_angle <- function(x, y, neighbours) {
  share <- function(i) {
    j <- neighbours[i, ]
    azimuth <- sort((atan2(x[j] - x[i], y[j] - y[i]) * 180 / pi) %% 360)
    gap <- c(diff(azimuth), azimuth[1] + 360 - azimuth[4])
    mean(pmin(gap, 360 - gap) < 72)
  }
  vapply(seq_along(x), share, numeric(1))
}

mingling <- function(species, neighbours) {
  vapply(seq_along(species), function(i) mean(species[neighbours[i, ]] != species[i]), numeric(1))
}

# What is written is what is computed from: the coordinates make the way through the text first.
rounded <- function(x) as.numeric(sprintf("%.17g", round(x, 4)))

rows <- list()
numbers <- list()
for (name in names(patterns)) {
  P <- patterns[[name]]
  P <- ppp(rounded(P$x), rounded(P$y), window = Window(P))
  species <- sample(c("a", "b", "c"), npoints(P), replace = TRUE, prob = c(0.6, 0.3, 0.1))
  rows[[name]] <- data.frame(pattern = name, x_m = P$x, y_m = P$y, species = species)
  in_disc <- startsWith(name, "disc")
  n <- npoints(P)
  A <- if (in_disc) pi * RADIUS^2 else area(Window(P))
  mean_nearest <- mean(nndist(P))
  neighbours <- nnwhich(P, k = 1:4)
  z <- (mean_nearest - 0.5 * sqrt(A / n)) / (sqrt((4 - pi) * A / (4 * pi)) / n)
  k <- Kest(P, r = seq(0, 6, by = 1 / 128), correction = c("isotropic", "translation", "border"))
  k <- k[k$r %in% 1:6, ]
  numbers[[name]] <- list(
    n = n,
    k_isotropic = k$iso,
    k_translation = if (in_disc) NA else k$trans,
    k_border = k$border,
    window = if (in_disc) list(radius_m = RADIUS) else list(x_m = Window(P)$xrange, y_m = Window(P)$yrange),
    mean_nearest_m = mean_nearest,
    mean_fourth_m = mean(nndist(P, k = 4)),
    clark_evans_none = if (in_disc) mean_nearest / (0.5 * sqrt(A / n)) else clarkevans(P, correction = "none"),
    z_none = z,
    p_none = 2 * pnorm(-abs(z)),
    # The library offers this one for rectangles only, with 0.0412 where Donnelly prints 0.041.
    clark_evans_donnelly_0.0412 = if (in_disc) NA else clarkevans(P, correction = "Donnelly"),
    clark_evans_cdf = clarkevans(P, correction = "cdf"),
    uniform_angle = uniform_angle(P$x, P$y, neighbours),
    mingling = mingling(species, neighbours)
  )
  # The test of the library itself must agree with the two lines above.
  if (!in_disc) {
    stopifnot(abs(clarkevans.test(P)$p.value - numbers[[name]]$p_none) < 1e-12)
  }
}

write.csv(do.call(rbind, rows), "patterns.csv", row.names = FALSE, quote = FALSE)
write_json(
  list(
    made_with = list(
      R = as.character(getRversion()),
      spatstat.explore = as.character(packageVersion("spatstat.explore")),
      spatstat.geom = as.character(packageVersion("spatstat.geom")),
      spatstat.random = as.character(packageVersion("spatstat.random"))
    ),
    disc_sides = SIDES,
    patterns = numbers
  ),
  "numbers.json",
  digits = NA, na = "null", auto_unbox = TRUE, pretty = TRUE
)
