// SPDX-License-Identifier: GPL-3.0-or-later
// What is concluded of a sensor's readings, one every quarter of an hour: the cost of a reading
// must not grow with their number. The last lines give it as a multiple of that among 300.
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "areo/trend/groups.hpp"
#include "areo/trend/state.hpp"

namespace {

using areo::trend::Series;

constexpr std::array<std::int64_t, 4> sizes{300, 3'000, 30'000, 100'000};

// A ferment that comes to rest slowly, and noise.
Series readings(std::size_t n) {
  std::mt19937_64 engine{20010301};  // NOLINT(cert-msc32-c,cert-msc51-cpp): the same every time
  const auto noise = [&] {
    constexpr double u = 0.0004;
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += static_cast<double>(engine() >> 11) * 0x1p-53;
    return u * sum;
  };
  Series s{{}, {}, areo::numeric::SharedErrors{n}, {}};
  for (std::size_t i = 0; i < n; ++i) {
    constexpr double a_day = 96;
    s.days.push_back(static_cast<double>(i) / a_day);
    s.gravity.push_back(1.010 + 0.040 / (1 + s.days.back() / 3) + noise());
    s.errors.set_own(i, 0.0004);
    s.errors.add_share(i, 0, 0.001);
  }
  return s;
}

void conclude(benchmark::State& state) {
  const Series s = readings(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) {
    auto concluded = areo::trend::state_of(areo::trend::grouped(s).series);
    benchmark::DoNotOptimize(concluded);
  }
}
BENCHMARK(conclude)->Arg(sizes[0])->Arg(sizes[1])->Arg(sizes[2])->Arg(sizes[3]);

class Keeper : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) ns_[run.run_name.args] = run.GetAdjustedCPUTime();
    ConsoleReporter::ReportRuns(runs);
  }
  [[nodiscard]] double of_a_reading(std::int64_t n) const {
    return ns_.at(std::to_string(n)) / static_cast<double>(n);
  }

 private:
  std::map<std::string, double> ns_;
};

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  Keeper keeper;
  benchmark::RunSpecifiedBenchmarks(&keeper);
  for (const std::int64_t n : sizes)
    std::printf("%7lld readings  a reading costs %.2f of one among %lld\n",
                static_cast<long long>(n), keeper.of_a_reading(n) / keeper.of_a_reading(sizes[0]),
                static_cast<long long>(sizes[0]));
}
