// SPDX-License-Identifier: GPL-3.0-or-later
// The physics of areo with nothing around it: no ranges, no uncertainty, no instrument but the one.
// What `areo correct` and `areo alcohol` cost is compared with this. The same sources as in
// include/areo/physics, the same numbers to rounding.
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double sps4[5][6] = {{385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
                                  {-46.2720, -7.1720, 1.1597, 5.1126, 17.5254, 0},
                                  {59.7712, 7.2491, 12.3630, -35.4791, 0, 0},
                                  {-47.2207, -21.6977, 27.6301, 0, 0, 0},
                                  {18.3184, 12.3081, 0, 0, 0, 0}};
static const double oiml_a[11] = {-192.9769495, 389.1238958,  -1668.103923, 13522.15441,
                                  -88292.78388, 306287.4042,  -613838.1234, 747017.2998,
                                  -547846.1354, 223446.0334,  -39032.85426};
static const double oiml_c[5][11] = {
    {1.693443461530087e-01, -1.046914743455169e+01, 7.196353469546523e+01, -7.047478054272792e+02,
     3.924090430035045e+03, -1.210164659068747e+04, 2.248646550400788e+04, -2.605562982188164e+04,
     1.852373922069467e+04, -7.420201433430137e+03, 1.285617841998974e+03},
    {-1.193013005057010e-02, 2.517399633803461e-01, -2.170575700536993e+00, 1.353034988843029e+01,
     -5.029988758547014e+01, 1.096355666577570e+02, -1.422753946421155e+02, 1.080435942856230e+02,
     -4.414153236817392e+01, 7.442971530188783e+00, 0},
    {-6.802995733503803e-04, 1.876837790289664e-02, -2.002561813734156e-01, 1.022992966719220e+00,
     -2.895696483903638e+00, 4.810060584300675e+00, -4.672147440794683e+00, 2.458043105903461e+00,
     -5.411227621436812e-01, 0, 0},
    {4.075376675622027e-06, -8.763058573471110e-06, 6.515031360099368e-06, -1.515784836987210e-06, 0,
     0, 0, 0, 0, 0, 0},
    {-2.788074354782409e-08, 1.345612883493354e-08, 0, 0, 0, 0, 0, 0, 0, 0, 0}};

static const double glass_per_c = 25e-6;

static inline double water(double t) {
  const double d = t - 3.983035;
  return 999.974950 * (1 - d * d * (t + 301.797) / (522528.9 * (t + 69.34881)));
}

static inline void fold_sugar(double t, double c[6]) {
  const double s = (t - 20) / 100;
  for (int k = 0; k < 6; ++k)
    c[k] = sps4[0][k] + s * (sps4[1][k] + s * (sps4[2][k] + s * (sps4[3][k] + s * sps4[4][k])));
}

static inline void fold_ethanol(double t, double c[11]) {
  const double s = t - 20;
  for (int k = 0; k < 11; ++k)
    c[k] = oiml_a[k] +
           s * (oiml_c[0][k] +
                s * (oiml_c[1][k] + s * (oiml_c[2][k] + s * (oiml_c[3][k] + s * oiml_c[4][k]))));
}

static inline double powers(const double *c, int n, double x) {
  double v = 0;
  for (int k = n; k-- > 0;) v = (v + c[k]) * x;
  return v;
}

static inline double powers_and_slope(const double *c, int n, double x, double *slope) {
  double v = 0, d = 0;
  for (int k = n; k-- > 0;) {
    d = d * x + (v + c[k]);
    v = (v + c[k]) * x;
  }
  *slope = d;
  return v;
}

// The sugar that adds so many kg/m³.
static inline double sugar_of(double add, const double c[6]) {
  double w = 2 * add / (c[0] + sqrt(c[0] * c[0] + 4 * c[1] * add));
  for (int step = 0; step < 20; ++step) {
    double slope;
    const double dw = (powers_and_slope(c, 6, w, &slope) - add) / slope;
    w -= dw;
    if (fabs(dw) < 1e-8) break;
  }
  return w;
}
