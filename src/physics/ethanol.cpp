// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/ethanol.hpp"

#include <array>
#include <cstddef>

#include "areo/numeric/root.hpp"

namespace areo::physics {
namespace {

// [oimlr22], digits as printed; p is the ethanol mass fraction, s = t - 20 °C:
// rho = A1 + sum_k A_k p^(k-1) + sum_k B_k s^k + sum_i sum_k C_i,k p^k s^i, in kg/m³.
// A1 is the density of the source's own water at 20 °C.
constexpr double a1 = 998.20123;
constexpr std::array a{// A2 .. A12, for p^1 .. p^11
                       -192.9769495, 389.1238958, -1668.103923, 13522.15441,
                       -88292.78388, 306287.4042, -613838.1234, 747017.2998,
                       -547846.1354, 223446.0334, -39032.85426};
constexpr std::array b{// B1 .. B6
                       -2.06185130e-01, -5.26825420e-03, 3.61300130e-05,
                       -3.89577020e-07, 7.16935400e-09,  -9.97392310e-11};
constexpr std::array c1{// C1,1 .. C1,11
                        1.693443461530087e-01,  -1.046914743455169e+01, 7.196353469546523e+01,
                        -7.047478054272792e+02, 3.924090430035045e+03,  -1.210164659068747e+04,
                        2.248646550400788e+04,  -2.605562982188164e+04, 1.852373922069467e+04,
                        -7.420201433430137e+03, 1.285617841998974e+03};
constexpr std::array c2{// C2,1 .. C2,10
                        -1.193013005057010e-02, 2.517399633803461e-01,  -2.170575700536993e+00,
                        1.353034988843029e+01,  -5.029988758547014e+01, 1.096355666577570e+02,
                        -1.422753946421155e+02, 1.080435942856230e+02,  -4.414153236817392e+01,
                        7.442971530188783e+00};
constexpr std::array c3{// C3,1 .. C3,9
                        -6.802995733503803e-04, 1.876837790289664e-02,  -2.002561813734156e-01,
                        1.022992966719220e+00,  -2.895696483903638e+00, 4.810060584300675e+00,
                        -4.672147440794683e+00, 2.458043105903461e+00,  -5.411227621436812e-01};
constexpr std::array c4{
    // C4,1 .. C4,4
    4.075376675622027e-06, -8.763058573471110e-06, 6.515031360099368e-06, -1.515784836987210e-06};
constexpr std::array c5{// C5,1 .. C5,2
                        -2.788074354782409e-08, 1.345612883493354e-08};

// sum_k v[k-1] x^k, k from 1: no constant term.
template <std::size_t N>
constexpr double powers(const std::array<double, N>& v, double x) noexcept {
  double sum = 0;
  for (std::size_t k = N; k-- > 0;) sum = (sum + v[k]) * x;
  return sum;
}

constexpr double reference_c = 20;

}  // namespace

detail::Increment<11> detail::ethanol_increment(double t_c) noexcept {
  const double s = t_c - reference_c;
  Increment<11> increment{};
  const auto add = [&](const auto& row) {
    for (double& c : increment.c) c *= s;
    for (std::size_t k = 0; k < row.size(); ++k) increment.c[k] += row[k];
  };
  add(c5);
  add(c4);
  add(c3);
  add(c2);
  add(c1);
  add(a);
  return increment;
}

Density ethanol_density(EthanolFraction p, Temperature t) {
  require(ethanol_fraction_range, p.value());
  require(ethanol_temperature_range, t.celsius());
  return kg_per_m3(a1 + powers(b, t.celsius() - reference_c) +
                   detail::ethanol_increment(t.celsius()).at(p.value()));
}

Density pure_ethanol_density() {
  return ethanol_density(EthanolFraction{1}, celsius_point(reference_c));
}

StrengthByVolume strength_by_volume(EthanolFraction p, Temperature reference) {
  return StrengthByVolume{100 * p.value() * ethanol_density(p, reference).value() /
                          ethanol_density(EthanolFraction{1}, reference).value()};
}

EthanolFraction ethanol_fraction(StrengthByVolume q, Temperature reference) {
  static constexpr Range range{
      "alcoholic strength", "% vol", 0, 100, "oimlr22", "a strength is a share of the volume"};
  require(range, q.value());
  return EthanolFraction{numeric::find_root(
      [=](double p) {
        return strength_by_volume(EthanolFraction{p}, reference).value() - q.value();
      },
      0, 1, 1e-13,
      {"ethanol mass fraction", "strength", q.value(), "% vol",
       "a strength is a share of the volume"})};
}

}  // namespace areo::physics
