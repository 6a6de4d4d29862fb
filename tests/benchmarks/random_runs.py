#!/usr/bin/env python3
# SPDX-License-Identifier: AGPL-3.0-or-later
"""Runs random plausible cases and looks for answers that contradict themselves.

    python3 tests/benchmarks/random_runs.py PROGRAM [RUNS] [SEED]

Crowns of all tooth classes and flat stacks, facets and balls, materials with and without modulus or fatigue,
years, shares, limits. Of each bite that is computed:
- 'below' never stands beside a probability of fracture above what is allowed, now or after the years,
- nor beside a tension above the strength over the asked safety factor,
- the figure that decides is never better than that of any zone,
- bulk and contact are never worse than the bite as a whole.
Prints each fault with its case, then how many ran; refused cases are counted by their reason. Each run takes one
thread and about five seconds: start one of these for each core, with seeds of their own."""
import collections, json, os, random, subprocess, sys, tempfile

TEETH = {"lower_first_molar": ["mesiobuccal", "distobuccal", "mesiolingual", "distolingual"],
         "lower_second_molar": ["mesiobuccal", "distobuccal", "mesiolingual", "distolingual"],
         "upper_first_molar": ["mesiobuccal", "distobuccal", "mesiolingual", "distolingual"],
         "upper_first_premolar": ["buccal", "lingual"],
         "lower_second_premolar": ["buccal", "lingual"]}
CROWNS = ["zirconia_3y_milled", "zirconia_3y_printed", "zirconia_4y_milled", "zirconia_5y_milled",
          "lithium_disilicate_milled", "lithium_disilicate_pressed", "leucite_glass_ceramic_milled",
          "feldspathic_ceramic_milled", "polymer_infiltrated_ceramic_milled", "alumina_dense",
          "resin_composite_milled"]
DIES = ["dentin", "epoxy_die", "pmma_die", "glass_epoxy_die", "stainless_steel"]
CEMENTS = ["resin_cement", "zinc_phosphate_cement", "glass_ionomer_cement"]


def crown(r):
    tooth = r.choice(list(TEETH))
    design = {"tooth": tooth, "occlusal_thickness_mm": round(r.uniform(0.4, 1.8), 2),
              "axial_thickness_mm": round(r.uniform(0.7, 1.3), 2),
              "finish_line": {"form": r.choice(["chamfer", "shoulder"]), "width_mm": round(r.uniform(0.4, 0.9), 2)},
              "total_occlusal_convergence_deg": r.choice([8, 12, 20]),
              "cement_thickness_um": r.choice([30, 60, 80, 120])}
    spots = ["central_fossa", "mesial_fossa", "distal_fossa"]
    spots += [f"{cusp}_cusp_{part}" for cusp in TEETH[tooth] for part in ("tip", "inner_slope")]
    return {"crown": design}, spots


def stack(r):
    design = {"radius_mm": 6, "ceramic_thickness_mm": round(r.uniform(0.3, 2), 2),
              "cement_thickness_um": r.choice([0, 50, 100]), "die_thickness_mm": r.choice([3, 5])}
    return {"flat_stack": design}, ["centre"]


def bite(r, spots):
    force = r.choice([100, 200, 300, 500, 700, 1000, 2000])
    if r.random() < 0.25:
        return {"name": "b", "antagonist": {"at": spots[0], "ball": r.choice(["enamel_cusp", "steel_ball"]),
                                            "radius_mm": r.choice([2, 3, 4]), "force_N": force}}
    chosen = r.sample(spots, min(len(spots), r.choice([1, 1, 1, 2, 3])))
    return {"name": "b", "total_force_N": force,
            "contacts": [{"at": spot, "radius_mm": r.choice([0.3, 0.4, 0.5, 0.7]),
                          "pressure": r.choice(["hertz", "uniform"]), "direction": r.choice(["axial", "surface_normal"])}
                         for spot in chosen]}


def limits(r):
    asked = {"required_safety_factor": r.choice([1, 1, 1.2, 1.5, 2])}
    if r.random() < 0.6:
        asked["years"] = r.choice([1, 5, 10])
        asked["chewing_force_share"] = r.choice([0.3, 0.5, 1])
    if r.random() < 0.4:
        asked["allowed_fracture_probability"] = r.choice([0.001, 0.01, 0.05, 0.2])
    if r.random() < 0.3:
        asked["compared_with"] = "characteristic"
    return asked


def random_case(r):
    case, spots = crown(r) if r.random() < 0.6 else stack(r)
    return {"crownproof": 1, "title": "random (invented)", **case,
            "materials": {"crown": r.choice(CROWNS), "cement": r.choice(CEMENTS), "die": r.choice(DIES)},
            "build": {"tilt_deg": r.choice([0, 0, 30, 90])},
            "bites": [bite(r, spots)], "strength": limits(r),
            "accuracy": {"cells": 10000}, "results": {"fields": "none"}, "pictures": {"dpi": 72}}


def faults_of(bite):
    found = []
    asked = bite["_asked"]
    tension = bite["governing"]
    below = bite["verdict"] == "below"
    limit = bite["fracture_limit"]
    if below and limit and limit["probability"] > limit["allowed_probability"]:
        found.append(f"below beside a probability of {limit['probability']:.3g}, {limit['allowed_probability']:.3g} allowed")
    fracture = bite["fracture"]
    if below and limit and fracture["probability"] is not None and fracture["probability"] > limit["allowed_probability"]:
        found.append("below beside a probability of today that is not allowed")
    if below and tension["safety_factor"] is not None and tension["safety_factor"] < asked:
        found.append(f"below beside a safety factor of {tension['safety_factor']:.3f}, {asked} asked")
    for zone in bite["zones"]:
        if (zone["safety_factor"] or 1e300) < (tension["safety_factor"] or 1e300) * (1 - 1e-9):
            found.append(f"{zone['zone']} has {zone['safety_factor']:.3f}, the headline {tension['safety_factor']:.3f}")
    for place in ("bulk", "contact"):
        if bite[place] and below and bite[place]["verdict"] == "above":
            found.append(f"below although {place} is above")
    return found


def run(program, case, folder):
    path = os.path.join(folder, "case.yaml")
    with open(path, "w") as file:
        json.dump(case, file)  # JSON is YAML
    done = subprocess.run([program, "run", path, "--json", "--threads", "1", "--output", os.path.join(folder, "out"), "--force"],
                          capture_output=True, text=True, timeout=900)
    return done.returncode, done.stdout, done.stderr


def main():
    program, runs, seed = sys.argv[1], int((sys.argv[2:] or ["500"])[0]), int((sys.argv[3:] or ["1"])[0])
    r = random.Random(seed)
    verdicts, refused, n_faults, computed = collections.Counter(), collections.Counter(), 0, 0
    with tempfile.TemporaryDirectory() as folder:
        while computed < runs:
            case = random_case(r)
            code, out, err = run(program, case, folder)
            if code != 0:
                refused[f"exit {code}: {err.strip().splitlines()[-1][:90] if err.strip() else ''}"] += 1
                if code not in (2, 3):
                    print(f"FAULT exit code {code}: {json.dumps(case)}\n  {err}", flush=True)
                    n_faults += 1
                continue
            computed += 1
            for bite_ in json.loads(out)["variants"][0]["bites"]:
                bite_["_asked"] = case["strength"]["required_safety_factor"]
                verdicts[bite_["verdict"]] += 1
                for fault in faults_of(bite_):
                    n_faults += 1
                    print(f"FAULT {fault}: {json.dumps(case)}", flush=True)
            if computed % 50 == 0:
                print(f"{computed} computed, {n_faults} faults, {dict(verdicts)}", flush=True)
    print(f"{computed} runs, {n_faults} faults; verdicts {dict(verdicts)}; refused {sum(refused.values())}:")
    for reason, count in refused.most_common(12):
        print(f"  {count:4d}  {reason}")
    sys.exit(1 if n_faults else 0)


if __name__ == "__main__":
    main()
