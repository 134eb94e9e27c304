"""How each value of a report is made, with formulas and sources."""

from __future__ import annotations

#: Value, and how it is made, in the order in which the report uses them.
METHODS = (
    (
        "Stems and basal area per hectare",
        "Sum over the living stems that are in, each times 10000 / area of the circle it was sampled by, m² (angle "
        "count: basal area factor / basal area of the stem).",
    ),
    (
        "Means, standard errors and intervals",
        "By the design that the settings state: simple random, stratified before or after sampling, clusters by the "
        "ratio of means, double sampling for stratification or with regression (Cochran 1977, Sampling Techniques, "
        "3rd ed., chapters 2, 5, 5A, 6, 9A and 12); intervals by Student's t, 95 %. Plots on a grid are computed as if "
        "drawn at random.",
    ),
    (
        "Plots at the stand edge",
        "One method carries the correction, never two: area weight 1 / share of a stem's own circle inside, mirage, "
        "walkthrough (Ducey, Gove & Valentine 2004, Forest Science 50: 427-435) over the share that it covers, or part "
        "plots by the ratio of means.",
    ),
    (
        "Stand density",
        "Reineke's index N (Dq / 25.4)^1.605, Dq quadratic mean diameter, cm (Reineke 1933, Journal of Agricultural "
        "Research 46: 627-638), also summed stem by stem (Long & Daniel 1990, Western Journal of Applied Forestry 5: "
        "93-96); relative density G / √Dq (Curtis 1982, Forest Science 28: 92-94).",
    ),
    (
        "Change between visits",
        "Plots measured both times, paired: growth of survivors at their first weight, ingrowth and ongrowth (Martin "
        "1982, Forest Science 28: 110-114, from memory), mortality, removals; the parts add up to the difference.",
    ),
    (
        "Clark-Evans R",
        "Mean distance to the nearest stem over the one expected, 0.5 √(A/n) + (0.0514 + 0.041/√n) P/n, A area, "
        "P perimeter, n stems (Clark & Evans 1954, Ecology 35: 445-453; Donnelly 1978, in Hodder, Simulation studies "
        "in archaeology, 91-95).",
    ),
    (
        "L(r)",
        "K(r) = A / (n (n - 1)) Σ w 1(d ≤ r) over ordered pairs d apart, isotropic edge weights w (Ripley 1976, "
        "Journal of Applied Probability 13: 255-266); L = √(K/π). Pooled: Σ n(n-1) K / Σ n(n-1) over plots.",
    ),
    (
        "Envelopes",
        "Global, 95 %, by extreme rank length (Myllymäki et al. 2017, Journal of the Royal Statistical Society B 79: "
        "381-404), against as many stems at random in the same circles; for marks, dealt out anew among the stems of "
        "each plot. A curve without a pattern leaves its envelope in 5 of 100 cases.",
    ),
    (
        "g(r)",
        "Pair correlation, Epanechnikov kernel of half-width 0.15 / √(n/A) (Stoyan & Stoyan 1994, Fractals, random "
        "shapes and point fields).",
    ),
    (
        "Mark correlation",
        "Mean product of the dbh of two stems r apart over the squared mean dbh of their plot, kernel of half-width "
        "1 m (Stoyan & Stoyan 1994).",
    ),
    (
        "Mark variogram",
        "Half the squared difference of the dbh of two stems r apart over the variance of dbh on their plot, kernel of "
        "half-width 1 m (Stoyan & Stoyan 1994); 1: no relation.",
    ),
    (
        "L(r) of species and sizes",
        "K(r) of the stems of one kind, or of one kind around the other, against the kinds dealt out anew among the "
        "stems of each plot; thick and thin: above and below the median dbh of the plot.",
    ),
    (
        "G(r)",
        "Share of stems whose nearest stem is within r, from those nearer to it than to the edge, weighed by the area "
        "in which they could be seen so (Hanisch 1984, Statistics 15: 409-412).",
    ),
    (
        "Indices of the four nearest stems",
        "Uniform angle (Gadow, Hui & Albert 1998, Centralblatt für das gesamte Forstwesen 115: 1-10), mingling (Gadow "
        "1993, Forst und Holz 48: 602-606) and differentiation 1 - thinner / thicker dbh (Füldner 1995, "
        "Strukturbeschreibung von Buchen-Edellaubholz-Mischwäldern; these three from memory), share of thinner "
        "neighbours, competition Σ (dbh of neighbour / own dbh) / distance (Hegyi 1974, in Fries, Growth models for "
        "tree and stand simulation, 74-90); only stems whose fourth neighbour is nearer than the edge.",
    ),
)
