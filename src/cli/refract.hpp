// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A refractometer reading, for the commands that take one.
#include <string>
#include <vector>

#include "areo/entry/extract_kind.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "column_options.hpp"
#include "output.hpp"
#include "sampling_options.hpp"

namespace areo::cli {

/// As typed; what is not given is empty. `with` is about the refractometer.
struct RefractOptions {
  std::vector<std::string> words;  ///< the reading, and behind it its temperature
  std::string reading, temperature, original, original_temperature, gravity, gravity_temperature;
  std::string hydrometer, culture, to, csv;
  ColumnOptions columns;
  entry::ExtractWords extract;
  entry::ReadingOptions with;
  SamplingOptions sampling;
  bool all = false;
};

/// @throws UsageError for options that have nothing to act on; what ReadingResolver and measurement
/// throw
int run_refract(const RefractOptions& options, const Session& session);

}  // namespace areo::cli
