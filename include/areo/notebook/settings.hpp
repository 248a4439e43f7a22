// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The units and the order of dates that the owner of a notebook is used to.
#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "areo/core/moment.hpp"

namespace areo::notebook {

/// In the words that are kept; empty: nobody said, or it was taken back.
struct Settings {
  std::string temperature;  ///< "C", "F"
  std::string mass;         ///< "g", "oz", "lb"
  std::string volume;       ///< "L", "US gal", "UK gal"
  std::string pressure;     ///< "bar", "kPa", "psi"
  std::string dates;        ///< "day first", "month first"
  friend bool operator==(const Settings&, const Settings&) = default;
};

/// A setting, its place, and the words that it may have.
struct SettingKind {
  std::string_view name;
  std::string Settings::*place;
  std::array<std::string_view, 3> words;  ///< one may be empty: there are two only
};
[[nodiscard]] std::span<const SettingKind> setting_kinds();

/// A change of one; the last one of its name holds.
struct SettingRecord {
  std::int64_t id = 0;
  Moment at;
  std::string name, value;
};

}  // namespace areo::notebook
