#!/usr/bin/python3
"""Works out random acid systems again, twice, and compares them with what the program answers.

First: the same charge balance, written anew, its root by SciPy's brentq.
Second: another formulation, the whole speciation as one set of equations (mass balance of every acid, charge, ionic
strength) in the logarithms of all concentrations, solved by SciPy's hybrid Powell method.
The pH must agree within 1e-6, titratable acidity within 1e-9 mol/L. Constants are typed in here again.

  recompute_acids.py ACID_ANSWERS [COUNT]
Exit code 77 when SciPy is not installed, which the test runner shows as skipped; UNDERCROFT_REQUIRE_SCIPY=1 (as ./check
sets) makes that a failure.
"""
import csv
import math
import os
import subprocess
import sys

try:
    from scipy.optimize import brentq, root
except ImportError as missing:
    print(f"skipped: {missing}; this check needs Debian's python3-scipy")
    sys.exit(1 if os.environ.get("UNDERCROFT_REQUIRE_SCIPY") else 77)

R = 8.314462618
# name: list of (pK at 25 C, enthalpy kJ/mol, heat capacity J/(mol K)), one for each proton
ACIDS = {
    "acetic": [(4.756, -0.41, -142)],
    "malic": [(3.459, 0, 0), (5.097, 0, 0)],
    "citric": [(3.128, 4.07, -131), (4.761, 2.23, -178), (6.396, -3.38, -254)],
    "tartaric": [(3.036, 3.19, -147), (4.366, 0.93, -218)],
    "succinic": [(4.207, 3.0, -121), (5.636, -0.5, -217)],
    "phosphoric": [(2.148, -8.0, -141), (7.198, 3.6, -230), (12.35, 16.0, -242)],
    "carbonic": [(6.351, 9.15, -371), (10.329, 14.7, -249)],
    "sulphurous": [(1.857, -17.8, -272), (7.172, -3.65, -262)],
}


def constants(celsius, abv):
    """name -> acidity constants, with alcohol."""
    kelvin = celsius + 273.15
    reference = 298.15
    out = {"lactic": [10 ** -(3.857 + 5e-5 * (celsius - 22.5) ** 2 + 0.014 * abv)]}
    for name, steps in ACIDS.items():
        out[name] = []
        for pk, dh, dcp in steps:
            term = dh * 1000 * (1 / reference - 1 / kelvin) + dcp * (reference / kelvin - 1 + math.log(kelvin / reference))
            out[name].append(10 ** -(pk - term / (R * math.log(10)) + 0.014 * abv))
    return out


def water(celsius, davies):
    kelvin = celsius + 273.15
    kw = 10 ** -(4470.99 / kelvin - 6.0875 + 0.01706 * kelvin)
    if not davies:
        return kw, 0.0
    eps = 87.740 - 0.40008 * celsius + 9.398e-4 * celsius ** 2 - 1.410e-6 * celsius ** 3
    t = celsius  # density of water: Kell on ITS-90
    rho = (999.83952 + 16.952577 * t - 7.9905127e-3 * t ** 2 - 46.241757e-6 * t ** 3 + 105.84601e-9 * t ** 4
           - 281.03006e-12 * t ** 5) / (1 + 16.887236e-3 * t) / 1000
    return kw, 1.82483e6 * math.sqrt(rho) * (eps * kelvin) ** -1.5


class System:
    def __init__(self, row):
        self.celsius = float(row["celsius"])
        self.kw, self.a = water(self.celsius, row["davies"] == "1")
        self.acids = []  # (total, constants, corrected by activity?)
        for name, ks in constants(self.celsius, float(row["abv"])).items():
            if name == "carbonic":
                self.gas = ks
            if float(row[name]) > 0:
                self.acids.append((float(row[name]), ks, True))
        low, high = float(row["buffer_low"]), float(row["buffer_high"])
        for total, pk in ((low / 2, 3.8), (low / 2, 4.9), (high, 6.6)):
            if total > 0:
                self.acids.append((total, [10 ** -pk], False))
        self.salt = float(row["salt"])
        self.strong = float(row["strong"])

    def log_gamma(self, ionic):
        return -self.a * (math.sqrt(ionic) / (1 + math.sqrt(ionic)) - 0.3 * ionic)

    def forms(self, total, ks, corrected, activity_h, gamma):
        """Concentrations of the forms with charge 0, -1, -2, -3."""
        weights = [1.0]
        for z, k in enumerate(ks):
            ratio = k / activity_h
            if corrected:
                ratio *= gamma ** (z * z) / gamma ** ((z + 1) * (z + 1))
            weights.append(weights[-1] * ratio)
        return [total * w / sum(weights) for w in weights]

    def needed(self, ph, acids=None):
        """Strong ions that make the charges zero at that pH, and the ionic strength."""
        acids = self.acids if acids is None else acids
        activity_h = 10 ** -ph
        ionic = 0.05
        for _ in range(500):
            gamma = 10 ** self.log_gamma(ionic)
            h, oh = activity_h / gamma, self.kw / activity_h / gamma
            charge = square = 0.0
            for total, ks, corrected in acids:
                for z, c in enumerate(self.forms(total, ks, corrected, activity_h, gamma)):
                    charge += z * c
                    square += z * z * c
            strong = charge + oh - h
            new = self.salt + 0.5 * (abs(strong) + h + oh + square)
            if abs(new - ionic) < 1e-16:
                break
            ionic = new
        return strong, ionic

    def by_brentq(self):
        return brentq(lambda ph: self.needed(ph)[0] - self.strong, 0, 14, xtol=1e-13, rtol=1e-14)

    def titratable(self):
        return self.needed(8.2, [acid for acid in self.acids if acid[1] is not self.gas])[0] - self.strong

    def by_speciation(self):
        """All concentrations as unknown logarithms: ln h, ln oh, ln of every form; and ln I."""
        count = sum(len(ks) + 1 for _, ks, _ in self.acids)

        def residuals(u):
            ln_h, ln_oh, ln_ionic = u[0], u[1], u[2]
            ionic = math.exp(min(ln_ionic, 3))
            ln_gamma = self.log_gamma(ionic) * math.log(10)
            out = [ln_h + ln_oh + 2 * ln_gamma - math.log(self.kw)]
            charge = math.exp(ln_h) - math.exp(ln_oh) + self.strong
            square = math.exp(ln_h) + math.exp(ln_oh) + abs(self.strong)
            at = 3
            scale = abs(self.strong) + 1e-4
            for total, ks, corrected in self.acids:
                lns = u[at:at + len(ks) + 1]
                at += len(ks) + 1
                for z, k in enumerate(ks):
                    # {H}[A(z+1)]g(z+1) / ([A(z)] g(z)) = K, with {H} = g h
                    shift = (z + 1) ** 2 - z ** 2 if corrected else 0
                    out.append(ln_h + ln_gamma + lns[z + 1] - lns[z] + shift * ln_gamma - math.log(k))
                conc = [math.exp(min(x, 5)) for x in lns]
                out.append(math.log(sum(conc) / total))
                charge -= sum(z * c for z, c in enumerate(conc))
                square += sum(z * z * c for z, c in enumerate(conc))
                scale += total
            out.append(charge / scale)
            out.append(math.log((self.salt + 0.5 * square) / ionic))
            return out

        best = None
        for start in (4.0, 3.0, 2.2, 6.0, 8.5, 11.0):
            u = [-start * math.log(10), -(14 - start) * math.log(10), math.log(0.05)]
            for total, ks, corrected in self.acids:
                # a first guess by plain constants
                for c in self.forms(total, ks, corrected, 10 ** -start, 0.85):
                    u.append(math.log(max(c, 1e-30)))
            assert len(u) == count + 3
            found = root(residuals, u, method="hybr", options={"xtol": 1e-13, "maxfev": 20000})
            worst = max(abs(x) for x in residuals(found.x))
            if best is None or worst < best[0]:
                best = (worst, found.x)
            if worst < 1e-10:
                break
        worst, u = best
        ln_gamma = self.log_gamma(math.exp(u[2])) * math.log(10)
        return -(u[0] + ln_gamma) / math.log(10), worst


def main():
    count = sys.argv[2] if len(sys.argv) > 2 else "1000"
    text = subprocess.run([sys.argv[1], count], check=True, capture_output=True, text=True).stdout
    rows = list(csv.DictReader(text.splitlines()))
    worst = {"brentq": 0.0, "speciation": 0.0, "ta": 0.0}
    unsolved = 0
    for number, row in enumerate(rows):
        system = System(row)
        ph = float(row["ph"])
        worst["brentq"] = max(worst["brentq"], abs(system.by_brentq() - ph))
        worst["ta"] = max(worst["ta"], abs(system.titratable() - float(row["ta_82"])))
        other, residual = system.by_speciation()
        if residual > 1e-8:
            unsolved += 1
            print(f"row {number}: the second formulation did not settle ({residual:.1e})")
            continue
        worst["speciation"] = max(worst["speciation"], abs(other - ph))
    print(f"{len(rows)} systems: largest difference of pH {worst['brentq']:.1e} from brentq, "
          f"{worst['speciation']:.1e} from the speciation, of TA {worst['ta']:.1e} mol/L; unsettled {unsolved}")
    good = worst["brentq"] < 1e-6 and worst["speciation"] < 1e-6 and worst["ta"] < 1e-9 and unsolved == 0
    return 0 if good and len(rows) == int(count) else 1


if __name__ == "__main__":
    sys.exit(main())
