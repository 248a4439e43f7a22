// SPDX-License-Identifier: GPL-3.0-or-later
// What the typed quantities cost: the density formulas of the library against the same formulas,
// with the same range checks, on plain doubles. Runs of both kinds are interleaved at random, so
// that drift of the machine meets both; the last lines give typed/plain of the medians.
#include <benchmark/benchmark.h>

#include <cstddef>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

#include "areo/physics/sucrose.hpp"
#include "areo/physics/water.hpp"

namespace {

using areo::ExtractFraction;
using areo::Temperature;
using areo::physics::sucrose_density;
using areo::physics::water_density;

constexpr std::size_t inputs = 1024;

// Fixed inputs without a pattern that a branch predictor or a vectoriser could use.
constexpr double spread(std::size_t i, double lo, double hi) {
  return lo + (hi - lo) * static_cast<double>((i * 7919) % inputs) / inputs;
}
template <class Make>
auto make_inputs(double lo, double hi, Make make) {
  std::vector<decltype(make(lo))> out;
  for (std::size_t i = 0; i < inputs; ++i) out.push_back(make(spread(i, lo, hi)));
  return out;
}
constexpr double plain(double v) { return v; }
constexpr ExtractFraction extract(double v) { return ExtractFraction{v}; }

// The formulas without unit types, with the same coefficients and range checks, so that the types
// are the only difference.
double plain_water_density(double t_c) {
  areo::require(areo::physics::water_range, t_c);
  const auto& [a1, a2, a3, a4, a5] = areo::physics::tanaka2001;
  const double d = t_c + a1;
  return a5 * (1 - d * d * (t_c + a2) / (a3 * (t_c + a4)));
}
double plain_sucrose_density(double w, double t_c) {
  using areo::physics::sps4;
  areo::require(areo::physics::sucrose_fraction_range, w);
  areo::require(areo::physics::sucrose_temperature_range, t_c);
  double water = 0;
  for (std::size_t i = 6; i-- > 0;) water = water * t_c + sps4.water_kg_m3[i];
  water /= 1 + sps4.water_denominator_per_c * t_c;
  return water + areo::physics::detail::sucrose_increment(t_c).at(w);
}

// One pass over all inputs, a function of its own that starts on a cache line: otherwise the place
// where the loop happens to land decides, by up to a quarter, between loops of equal instructions.
// Not folded: the compiler finds the two kinds identical and would make them one.
#define AREO_KERNEL [[gnu::noinline, gnu::aligned(64), gnu::no_icf]] void
AREO_KERNEL pass(const double* t_c, double* out) {
  for (std::size_t i = 0; i < inputs; ++i) out[i] = plain_water_density(t_c[i]);
}
AREO_KERNEL pass(const Temperature* t, double* out) {
  for (std::size_t i = 0; i < inputs; ++i) out[i] = water_density(t[i]).value();
}
AREO_KERNEL pass(const double* w, const double* t_c, double* out) {
  for (std::size_t i = 0; i < inputs; ++i) out[i] = plain_sucrose_density(w[i], t_c[i]);
}
AREO_KERNEL pass(const ExtractFraction* w, const Temperature* t, double* out) {
  for (std::size_t i = 0; i < inputs; ++i) out[i] = sucrose_density(w[i], t[i]).value();
}
#undef AREO_KERNEL

template <class... Inputs>
void measure(benchmark::State& state, const std::vector<Inputs>&... in) {
  std::vector<double> out(inputs);
  for (auto _ : state) {
    pass(in.data()..., out.data());
    benchmark::DoNotOptimize(out.data());
    benchmark::ClobberMemory();
  }
}
void water_plain(benchmark::State& state) { measure(state, make_inputs(0, 40, plain)); }
void water_typed(benchmark::State& state) {
  measure(state, make_inputs(0, 40, areo::celsius_point));
}
void sucrose_plain(benchmark::State& state) {
  measure(state, make_inputs(0, 0.85, plain), make_inputs(0, 100, plain));
}
void sucrose_typed(benchmark::State& state) {
  measure(state, make_inputs(0, 0.85, extract), make_inputs(0, 100, areo::celsius_point));
}
BENCHMARK(water_plain);
BENCHMARK(water_typed);
BENCHMARK(sucrose_plain);
BENCHMARK(sucrose_typed);

// Prints the aggregates as usual and keeps the medians.
class Keeper : public benchmark::ConsoleReporter {
 public:
  Keeper() : ConsoleReporter{OO_Tabular} {}
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs)
      if (run.aggregate_name == "median")
        medians_[run.run_name.function_name] = run.GetAdjustedCPUTime();
    ConsoleReporter::ReportRuns(runs);
  }
  [[nodiscard]] double median(const std::string& name) const { return medians_.at(name); }

 private:
  std::map<std::string, double> medians_;
};

}  // namespace

int main(int argc, char** argv) {
  // Defaults first, so that the command line can change them.
  std::vector<std::string> words{argv[0], "--benchmark_enable_random_interleaving=true",
                                 "--benchmark_repetitions=31", "--benchmark_min_time=0.05",
                                 "--benchmark_display_aggregates_only=true"};
  words.insert(words.end(), argv + 1, argv + argc);
  std::vector<char*> pointers;
  for (std::string& w : words) pointers.push_back(w.data());
  int count = static_cast<int>(pointers.size());
  benchmark::Initialize(&count, pointers.data());
  if (benchmark::ReportUnrecognizedArguments(count, pointers.data())) return 2;

  Keeper keeper;
  benchmark::RunSpecifiedBenchmarks(&keeper);
  for (const std::string formula : {"water", "sucrose"})
    std::printf("%-7s  typed/plain = %.4f\n", formula.c_str(),
                keeper.median(formula + "_typed") / keeper.median(formula + "_plain"));
}
