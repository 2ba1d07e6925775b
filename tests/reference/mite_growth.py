"""Growth of mites in a colony that does not change: largest eigenvalues by SciPy.

Written for tests/linear.rs, which reads the output and needs no Python:

    python3 tests/reference/mite_growth.py > tests/reference/mite_growth.json

The matrix is built here from the published form of the hazard (Boot et al. 1995) and a life table, not
from the program. Tried with SciPy 1.17 and NumPy 2.4.
"""

import json

import numpy as np
import scipy.linalg


def matrix(bees_g, worker_capped, drone_capped, death, daughters_worker, daughters_drone,
           survive_worker, survive_drone, worker_d=12, drone_d=14):
    size = 1 + worker_d + drone_d
    m = np.zeros((size, size))
    worker = 0.56 * worker_capped / bees_g
    drone = 6.49 * drone_capped / bees_g
    enters = 1.0 - np.exp(-(worker + drone))
    m[0, 0] = (1.0 - enters) * (1.0 - death)
    share = worker / (worker + drone)
    m[1, 0] = enters * share
    m[1 + worker_d, 0] = enters * (1.0 - share)
    for day in range(1, worker_d):
        m[1 + day, day] = 1.0
    for day in range(1, drone_d):
        m[1 + worker_d + day, worker_d + day] = 1.0
    m[0, worker_d] = (1.0 + daughters_worker) * survive_worker
    m[0, worker_d + drone_d] = (1.0 + daughters_drone) * survive_drone
    return m


cases = []
for bees_g, worker, drone in [(3600.0, 1200.0, 0.0), (3600.0, 1200.0, 30.0), (1200.0, 600.0, 20.0),
                              (2400.0, 300.0, 5.0)]:
    given = dict(bees_g=bees_g, worker_capped=worker, drone_capped=drone, death=0.008,
                 daughters_worker=1.05, daughters_drone=2.4, survive_worker=0.62, survive_drone=0.85)
    values = scipy.linalg.eigvals(matrix(**given))
    cases.append({**given, "growth_factor": float(max(abs(values)))})
print(json.dumps({"cases": cases}, indent=1))
