// SPDX-License-Identifier: GPL-3.0-or-later
#include "reading_options.hpp"

#include <fmt/format.h>

#include "areo/core/moment.hpp"
#include "failure.hpp"
#include "usage.hpp"

namespace areo::cli {

void add_common_options(const Command& command, entry::ReadingOptions& o) {
  command.add_option("--thermometer", o.thermometer, "thermometer in the notebook")
      .type_name("NAME");
  command
      .add_option("--temp-accuracy", o.temperature_accuracy,
                  "how far the temperature may be off, ±; 0.5C unless stated")
      .type_name("0.2C");
  command.add_option("--at", o.at, "moment of the reading: the calibration in force then is used")
      .date();
  command.add_flag("--interpolate", o.interpolate,
                   "with --at: between two calibrations, on a straight line in time");
}

void add_reading_options(const Command& command, entry::ReadingOptions& o) {
  command.add_option("--instrument", o.instrument, "hydrometer in the notebook").type_name("NAME");
  add_common_options(command, o);
  command
      .add_option("--division", o.division,
                  "smallest division of an unnamed hydrometer; 0.002 unless stated")
      .type_name("0.001");
  command.add_flag("--top", o.top, "cloudy liquid: read at the top of the meniscus");
}

void check_reading_options(const entry::ReadingOptions& o) {
  refuse_together(!o.division.empty(), "--division", !o.instrument.empty(), "--instrument",
                  "leave --division out: the notebook has that of the instrument");
}

void check_temperature_options(const entry::ReadingOptions& o, bool temperature_given,
                               const std::string& temperature_options) {
  if (temperature_given) return;
  for (const auto& [given, name] : {std::pair{!o.thermometer.empty(), "--thermometer"},
                                    std::pair{!o.temperature_accuracy.empty(), "--temp-accuracy"}})
    if (given)
      throw UsageError{
          fmt::format("{} without {}: there is no temperature", name, temperature_options),
          fmt::format("give the temperature too, e.g. 20C, or leave {} out", name)};
}

entry::ReadingResolver reading_resolver(const Session& session,
                                        const entry::ReadingOptions& options) {
  if (!options.at.empty()) (void)past_day_end_from_text(options.at, now());
  if (!options.at.empty() && options.instrument.empty() && options.thermometer.empty())
    throw UsageError{"--at without --instrument or --thermometer: nothing depends on the day",
                     "name the instrument in the notebook, or leave --at out"};
  if (options.interpolate && options.at.empty())
    throw UsageError{"--interpolate without --at: after the last calibration there is no next one",
                     "say with --at when the reading was made, or leave --interpolate out"};
  return entry::ReadingResolver{session.book, options};
}

}  // namespace areo::cli
