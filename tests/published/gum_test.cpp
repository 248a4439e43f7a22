// SPDX-License-Identifier: GPL-3.0-or-later
// The law of propagation: the worked examples of [gum] annex H from tables/.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "areo/uncertainty/propagate.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

using uncertainty::Input;
using uncertainty::InputRef;
using uncertainty::Inputs;
using uncertainty::Point;

// [gum] H.1, printed to whole nanometres; the table's inputs carry two digits.
TEST(GumH1, EndGauge) {
  Inputs in;
  std::vector<Row> rows = rows_of("gum-h1-endgauge");
  const auto add = [&](const std::string& name) {
    for (const Row& r : rows)
      if (r.text("input") == name) {
        Input i = uncertainty::normal(name, "", r.number("estimate"), r.number("std_uncertainty"),
                                      "[gum] H.1");
        if (!r.empty("dof")) i.degrees_of_freedom = r.number("dof");
        return in.add(i);
      }
    throw std::runtime_error{name + " is not in the table"};
  };
  const InputRef ls = add("ls_nm");
  const InputRef d = add("d_nm");
  const InputRef dalpha = add("dalpha_per_degC");
  const InputRef theta = add("theta_degC");
  const InputRef alpha_s = add("alpha_s_per_degC");
  const InputRef dtheta = add("dtheta_degC");
  const uncertainty::Propagation p = uncertainty::propagate(
      in,
      [&](const Point& x) {
        return std::vector{x[ls] + x[d] - x[ls] * (x[dalpha] * x[theta] + x[alpha_s] * x[dtheta])};
      },
      {.check_linearity = true});
  const uncertainty::Value& length = p.values[0];
  EXPECT_NEAR(length.estimate, 50000838, 0.5);
  EXPECT_NEAR(length.u, 32, 0.5);
  EXPECT_EQ(length.whole_degrees_of_freedom(), 16);
  EXPECT_NEAR(length.expanded(0.99) / length.u, 2.92, 0.005);
  EXPECT_NEAR(length.expanded(0.99), 93, 0.5);
  EXPECT_NEAR(p.u_second_order[0], 34, 0.5);
  ASSERT_EQ(p.warnings[0].size(), 1U);
  EXPECT_EQ(p.warnings[0][0].kind, uncertainty::Warning::Kind::second_order);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    // Half a digit; for dtheta also half a digit of its u, 0.0005 °C times 575 nm/°C.
    const double tolerance = 0.05 + (i == dtheta.index ? 0.29 : 0);
    EXPECT_NEAR(std::abs(p.shares[0][i]), rows[i].number("contribution_nm"), tolerance)
        << rows[i].where();
  }
}

// [gum] H.2: five simultaneous readings; their means err together.
TEST(GumH2, ResistanceReactanceImpedance) {
  constexpr std::array columns{"V", "I_mA", "phi_rad"};
  std::array<std::vector<double>, 3> read;
  for (const Row& r : rows_of("gum-h2-impedance"))
    for (std::size_t i = 0; i < 3; ++i) read[i].push_back(r.number(columns[i]));
  Inputs in;
  std::vector<InputRef> ref;
  for (std::size_t i = 0; i < 3; ++i)
    ref.push_back(in.add(uncertainty::repeated(columns[i], "", read[i], 0, "[gum] H.2")));
  const auto all = in.all();
  EXPECT_NEAR(all[0].value, 4.9990, 0.00005);
  EXPECT_NEAR(all[0].u, 0.0032, 0.00005);
  EXPECT_NEAR(all[1].value, 19.6610, 0.00005);
  EXPECT_NEAR(all[1].u, 0.0095, 0.00005);
  EXPECT_NEAR(all[2].value, 1.04446, 0.000005);
  EXPECT_NEAR(all[2].u, 0.00075, 0.000005);
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = i + 1; j < 3; ++j) {
      double sum = 0;
      for (std::size_t k = 0; k < 5; ++k)
        sum += (read[i][k] - all[i].value) * (read[j][k] - all[j].value);
      in.correlate(ref[i], ref[j], sum / 20 / all[i].u / all[j].u);
    }
  EXPECT_NEAR(in.correlations()[0].r, -0.36, 0.005);
  EXPECT_NEAR(in.correlations()[1].r, 0.86, 0.005);
  EXPECT_NEAR(in.correlations()[2].r, -0.65, 0.005);
  const uncertainty::Propagation p = uncertainty::propagate(in, [&](const Point& x) {
    const double z = x[ref[0]] / x[ref[1]] * 1000;  // V / mA
    return std::vector{z * std::cos(x[ref[2]]), z * std::sin(x[ref[2]]), z};
  });
  EXPECT_NEAR(p.values[0].estimate, 127.732, 0.0005);
  EXPECT_NEAR(p.values[0].u, 0.071, 0.0005);
  EXPECT_NEAR(p.values[1].estimate, 219.847, 0.0005);
  // Printed 0.295 from rounded inputs; 0.295582 recomputed from the readings.
  EXPECT_NEAR(p.values[1].u, 0.295582, 5e-7);
  EXPECT_NEAR(p.values[2].estimate, 254.260, 0.0005);
  EXPECT_NEAR(p.values[2].u, 0.236, 0.0005);
  const numeric::Covariance v = uncertainty::covariance(in, p);
  const auto r = [&](std::size_t i, std::size_t j) {
    return v(i, j) / std::sqrt(v(i, i) * v(j, j));
  };
  EXPECT_NEAR(r(0, 1), -0.588, 0.0005);
  EXPECT_NEAR(r(0, 2), -0.485, 0.0005);
  EXPECT_NEAR(r(1, 2), 0.993, 0.0005);
}

}  // namespace
}  // namespace areo::published
