// SPDX-License-Identifier: GPL-3.0-or-later
// reading,temperature in °C  ->  the same and correction, density at t, specific gravity 20/20.
#include "physics.h"

int main(void) {
  char line[256];
  static char out[1 << 16];
  setvbuf(stdout, out, _IOFBF, sizeof out);
  if (!fgets(line, sizeof line, stdin)) return 1;
  const double water_20_now = water(20);
  puts("reading,temperature,correction,density,sg");
  while (fgets(line, sizeof line, stdin)) {
    char *end;
    const double reading = strtod(line, &end);
    const double t = strtod(end + 1, NULL);
    const double rho = reading * water_20_now / (1 + glass_per_c * (t - 20));
    double c[6];
    fold_sugar(t, c);
    const double sg = 1 + powers(sps4[0], 6, sugar_of(rho - water(t), c)) / water_20_now;
    line[strcspn(line, "\n")] = 0;
    printf("%s,%.4f,%.2f,%.4f\n", line, sg - reading, rho, sg);
  }
  return 0;
}
