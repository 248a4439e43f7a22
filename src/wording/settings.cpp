// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/settings.hpp"

#include <fmt/format.h>

#include "text/json_dump.hpp"

namespace areo::wording {

std::vector<std::string> settings_lines(const notebook::Settings& settings) {
  std::vector<std::string> all;
  bool any = false;
  for (const notebook::SettingKind& kind : notebook::setting_kinds()) {
    const std::string& value = settings.*kind.place;
    any = any || !value.empty();
    const bool temperature = kind.place == &notebook::Settings::temperature;
    all.push_back(fmt::format("  {:<11}  {}{}", kind.name, temperature && !value.empty() ? "°" : "",
                              value.empty() ? "none" : value));
  }
  all.emplace_back(any ? "a bare number is in that unit, and temperatures are told in it"
                       : "numbers need their unit; areo settings temperature F sets one");
  return all;
}

std::string settings_json(const notebook::Settings& settings) {
  text::Json json;
  for (const notebook::SettingKind& kind : notebook::setting_kinds()) {
    const std::string& value = settings.*kind.place;
    json[std::string{kind.name}] = text::text_json(value);
  }
  return text::dump(json);
}

}  // namespace areo::wording
