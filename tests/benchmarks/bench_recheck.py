"""How much of a survey's error the first part of a re-check list mends, against the same lines in random order.

python -m tests.benchmarks.bench_recheck [plots] [surveys]
"""

import sys

import numpy as np

from stemmap.tasks.recheck import recheck_list
from stemmap.tasks.workup import work_up
from tests.known_survey import known_survey, recovered

PART = 0.2
ORDERS = 50


def within(gains, plots, own, walk, minutes):
    """What lines in an order mend within so many minutes, each walk paid once."""
    fresh = np.zeros(len(plots), bool)
    fresh[np.unique(plots, return_index=True)[1]] = True
    return gains[np.cumsum(own + walk * fresh) <= minutes].sum()


def main() -> None:
    """Print for stands at random and in groups what a fifth of the lines, and of the time, mends."""
    plots = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    surveys = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    print("stand       lines  error on list  first fifth of lines   of time   any stems at random   expected/mended")
    for groups in (False, True):
        for per_ha in (500, 1000):
            rows = []
            for seed in range(surveys):
                rng = np.random.default_rng([seed, per_ha, groups])
                known = known_survey(rng, plots=plots, per_ha=per_ha, groups=groups)
                workup = work_up(known.made)
                listed = recheck_list(workup, blind_share=0.0)
                gains, rules = recovered(known, listed), workup.survey.settings.recheck
                walk = rules.minutes_to_plot + rules.minutes_to_set_up
                own = np.where(listed.stem >= 0, rules.minutes_per_stem, rules.minutes_to_search)
                count = int(PART * len(listed))
                time = PART * listed.minutes.sum()
                mixed = []
                for _ in range(ORDERS):
                    order = rng.permutation(len(listed))
                    mixed.append(
                        (
                            gains[order[:count]].sum(),
                            within(gains[order], listed.visit[order], own[order], walk, time),
                            rng.permutation(np.concatenate([known.of_stem, known.of_plot]))[:count].sum(),
                        )
                    )
                lines, minutes, anything = np.mean(mixed, axis=0)
                rows.append(
                    [
                        len(listed),
                        gains.sum() / (known.of_stem.sum() + known.of_plot.sum()),
                        gains[:count].sum() / lines,
                        within(gains, listed.visit, own, walk, time) / minutes,
                        gains[:count].sum() / anything,
                        np.nansum(listed.percent) * listed.workup.worth.result.plots / gains.sum(),
                    ]
                )
            made, least = np.mean(rows, axis=0), np.min(rows, axis=0)
            print(
                f"{'groups' if groups else 'at random':9} {per_ha:5} {made[0]:6.0f} {made[1]:10.2f}"
                f" {made[2]:13.2f} ({least[2]:.2f}) {made[3]:10.2f} ({least[3]:.2f}) {made[4]:10.2f} {made[5]:15.2f}",
                flush=True,
            )


if __name__ == "__main__":
    main()
