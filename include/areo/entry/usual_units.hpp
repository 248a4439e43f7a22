// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a bare number means to somebody who is used to a unit: the settings of the notebook say it.
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "areo/core/date_order.hpp"
#include "areo/entry/notebook_on_demand.hpp"
#include "areo/notebook/settings.hpp"
#include "areo/text/parse_sample.hpp"
#include "areo/text/parse_temperature.hpp"

namespace areo::entry {

struct TypedPair;

/// What a text is of.
enum class Quantity { temperature, mass, volume, pressure, date };

/// How a text was read that lacked something.
struct Completed {
  std::string text;  ///< with its unit; of a date of two readings ISO 8601
  std::string echo;  ///< "23 read as 23 °F"; empty: the text is as it was
};
/// @return  the text as it is where nothing lacks, or nobody set what it could be
[[nodiscard]] Completed completed(const std::string& typed, Quantity of,
                                  const notebook::Settings& settings);

/// The unit that temperatures are told in; unknown: nobody set one.
[[nodiscard]] text::TemperatureUnit temperature_unit(const notebook::Settings& settings);
[[nodiscard]] DateOrder date_order(const notebook::Settings& settings);

/// A change that somebody typed: "temperature F", "volume US gal", "dates dmy", "mass none".
/// @return  its value as the notebook keeps it
/// @throws  ParseError for a setting that there is not, naming those there are
[[nodiscard]] std::string setting_from_text(const std::string& name,
                                            const std::vector<std::string>& words);

/// Words of a reading and its temperature, as a shell parts them: "1.050 SG 60/60 °F 73 °F".
inline constexpr int most_words = 16;

/// Settings of a notebook that is opened when they are first needed. One that cannot be opened sets
/// nothing: whoever needs it says why it cannot.
class UsualUnits {
 public:
  explicit UsualUnits(SharedNotebook book) : book_{std::move(book)} {}
  [[nodiscard]] const notebook::Settings& settings();
  /// As completed(); the echo is kept.
  [[nodiscard]] std::string read(const std::string& typed, Quantity of);
  /// How texts were read, each once.
  [[nodiscard]] const std::vector<std::string>& echoes() const { return echoes_; }
  [[nodiscard]] std::string told(double celsius);

  /// A reading and the temperature behind it, from the words of a call: 1.018 23C.
  /// @throws ParseError as text::reading_from_text(), and for a temperature that was said already
  void take_reading(const std::vector<std::string>& words, std::string& reading,
                    std::string& temperature);
  /// One or two readings, each with its temperature or with that behind both: then `first` and
  /// `second` stay empty. `words` become the readings.
  /// @throws ParseError for more of them, and as take_reading()
  void take_readings(std::vector<std::string>& words, std::string& both, std::string& first,
                     std::string& second);
  /// Two readings of one sample, by refractometer and hydrometer.
  /// @throws ParseError for another number of them, and as take_readings()
  void take_pair(std::vector<std::string> words, TypedPair& pair);

 private:
  [[nodiscard]] text::BareTemperature bare_temperature() {
    return [this](const std::string& t) { return read(t, Quantity::temperature); };
  }
  SharedNotebook book_;
  std::optional<notebook::Settings> settings_;
  std::vector<std::string> echoes_;
};

}  // namespace areo::entry
