// SPDX-License-Identifier: GPL-3.0-or-later
// original,present,temperature in °C  ->  the same and the eleven results of `areo alcohol --csv`.
#include "physics.h"

static const double yield = 2.0665;
static const double stem_m = 0.005, mass_kg = 0.025, gravity = 9.80665;

int main(void) {
  char line[256];
  static char out[1 << 16];
  setvbuf(stdout, out, _IOFBF, sizeof out);
  if (!fgets(line, sizeof line, stdin)) return 1;
  const double water_20_now = water(20);
  const double tau = 1 - 293.15 / 647.096;
  const double pull_water = 0.2358 * pow(tau, 1.256) * (1 - 0.625 * tau) * M_PI * stem_m / gravity;
  // The source's own water, as pure ethanol is stated on it.
  double pure_ethanol = 998.20123 + powers(oiml_a, 11, 1);
  puts("original,present,temperature,vol,mass,oe,re,ae,aa,ra,kj,rule,sg_original,sg_present");
  while (fgets(line, sizeof line, stdin)) {
    char *end;
    const double original = strtod(line, &end);
    const double present = strtod(end + 1, &end);
    const double t = strtod(end + 1, NULL);
    const double per_glass = water_20_now / (1 + glass_per_c * (t - 20));
    const double w_t = water(t);
    double sugar[6], ethanol[11];
    fold_sugar(t, sugar);
    fold_ethanol(t, ethanol);
    const double oe = sugar_of(original * per_glass - w_t, sugar);
    // The stem is pulled down less by a drink than by water.
    const double level = present * per_glass;
    const double x_a = (yield - 1) * oe - yield;
    double a = 0.03, p = a, w = oe + x_a * a;
    double rho = 0, rho_a = 0;
    for (int step = 0; step < 20; ++step) {
      const double in_log = 1 + a / 0.0306;
      rho = level * (1 - pull_water * 0.2327 * log(in_log) / (mass_kg + pull_water));
      rho_a = -level * pull_water * 0.2327 / (0.0306 * in_log * (mass_kg + pull_water));
      double s_w, e_p;
      const double of_sugar = w_t + powers_and_slope(sugar, 6, w, &s_w);
      const double add = powers_and_slope(ethanol, 11, p, &e_p);
      const double of_ethanol = w_t + add;
      const double x = oe + x_a * a;
      const double e = of_sugar + add - rho, f = p * of_ethanol - a * rho, g = w * of_sugar - x * rho;
      const double f_p = of_ethanol + p * e_p, f_a = rho + a * rho_a;
      const double g_w = of_sugar + w * s_w, g_a = x_a * rho + x * rho_a;
      const double da = (s_w * g / g_w + e_p * f / f_p - e) / (s_w * g_a / g_w + e_p * f_a / f_p - rho_a);
      a += da;
      p += (f_a * da - f) / f_p;
      w += (g_a * da - g) / g_w;
      if (fabs(da) < 1e-8) break;
    }
    // The drink at 20 °C: both binaries again.
    const double x = oe + x_a * a;
    double s_w, e_p, rho_20 = 0;
    w = x;
    p = a;
    for (int step = 0; step < 20; ++step) {
      const double of_sugar = water_20_now + powers_and_slope(sps4[0], 6, w, &s_w);
      const double add = powers_and_slope(oiml_a, 11, p, &e_p);
      const double of_ethanol = water_20_now + add;
      rho_20 = of_sugar + add;
      const double f = w * of_sugar - x * rho_20, g = p * of_ethanol - a * rho_20;
      const double f_w = of_sugar + (w - x) * s_w, f_p = -x * e_p;
      const double g_p = of_ethanol + (p - a) * e_p, g_w = -a * s_w;
      const double determinant = f_w * g_p - f_p * g_w;
      const double dw = (f * g_p - g * f_p) / determinant, dp = (g * f_w - f * g_w) / determinant;
      w -= dw;
      p -= dp;
      if (fabs(dw) < 1e-7 && fabs(dp) < 1e-7) {
        rho_20 -= s_w * dw + e_p * dp;
        break;
      }
    }
    const double ae = sugar_of(rho_20 - water_20_now, sps4[0]);
    const double sg_original = 1 + powers(sps4[0], 6, oe) / water_20_now;
    const double sg_present = rho_20 / water_20_now;
    line[strcspn(line, "\n")] = 0;
    printf("%s,%.2f,%.2f,%.2f,%.2f,%.2f,%.1f,%.1f,%.0f,%.2f,%.4f,%.4f\n", line,
           100 * a * rho_20 / pure_ethanol, 100 * a, 100 * oe, 100 * x, 100 * ae,
           100 * (oe - ae) / oe, 100 * (oe - x) / oe, rho_20 / 10 * (29 * a + 17 * x),
           131.25 * (sg_original - sg_present), sg_original, sg_present);
  }
  return 0;
}
