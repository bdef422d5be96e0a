"""Solves MPS files with HiGHS through `highspy` and prints the least cost of each: a line with file, tab and cost.

    python second-solver.py FILE...

A model that no values keep has the cost "infeasible".
"""

import sys

import highspy


def least_cost(path):
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("mip_rel_gap", 0.0)
    if solver.readModel(path) == highspy.HighsStatus.kError:
        raise SystemExit(f"{path}: not read")
    solver.run()
    status = solver.getModelStatus()
    if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible):
        return "infeasible"
    if status in (highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kModelEmpty):
        return repr(solver.getObjectiveValue())
    raise SystemExit(f"{path}: ended as {status}")


if __name__ == "__main__":
    for path in sys.argv[1:]:
        print(path, least_cost(path), sep="\t")
