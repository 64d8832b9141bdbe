"""Whatever the order in which the same dives are added, the figures are the same to the last bit: 22 dives of the samples by up to two
recorders, and made ones.

usage: order.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import random

from rough import ROUNDS, SAMPLES, fail, figures, make_dives, run, work


def all_logs(folder):
    found = []
    for base, _, names in os.walk(folder):
        found += [os.path.join(base, name) for name in names if not name.endswith(".card") and "plan" not in name]
    return sorted(found)


def main():
    with work() as folder:
        names = all_logs(os.path.join(SAMPLES, "expedition")) + all_logs(make_dives(os.path.join(folder, "dives"), 12, 2))
        # 2: the samples hold a damaged log.
        run(folder, "ledger", "add", "--ledger", "first", *names, expect=(2,))
        first = figures(os.path.join(folder, "first"))
        if len(first) != 34:
            fail(f"{len(first)} dives and not 34")
        recomputed = 0
        for seed in range(ROUNDS or 3):
            shuffled = names[:]
            random.Random(seed).shuffle(shuffled)
            done = run(folder, "ledger", "add", "--ledger", f"l{seed}", *(shuffled if seed else reversed(names)), expect=(2,))
            recomputed += done.stdout.count("recomputed")
            if figures(os.path.join(folder, f"l{seed}")) != first:
                fail(f"seed {seed}: other figures")
        if recomputed == 0:
            fail("no older dive was put before a later one")
        done = run(folder, "ledger", "check", "--ledger", "first", "--recompute", expect=(0,))
        print(done.stdout, end="")
        print(f"{len(first)} dives in {ROUNDS or 3} other orders, later dives computed again {recomputed} times: the same figures")


main()
