// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of setting.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "areo/notebook/settings.hpp"
#include "areo/notebook/store.hpp"
#include "impl.hpp"
#include "migrate.hpp"
#include "words.hpp"

namespace areo::notebook {

using sqlite::Statement;

std::span<const SettingKind> setting_kinds() {
  static constexpr std::array kinds{
      SettingKind{"temperature", &Settings::temperature, {"C", "F", ""}},
      SettingKind{"mass", &Settings::mass, {"g", "oz", "lb"}},
      SettingKind{"volume", &Settings::volume, {"L", "US gal", "UK gal"}},
      SettingKind{"pressure", &Settings::pressure, {"bar", "kPa", "psi"}},
      SettingKind{"dates", &Settings::dates, {"day first", "month first", ""}}};
  return kinds;
}

void Notebook::set(std::string_view name, std::string_view value, Moment at) {
  const sqlite::Connection& db = impl_->db;
  const auto kinds = setting_kinds();
  const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                 [&](const SettingKind& k) { return k.name == name; });
  if (kind == kinds.end() || (!value.empty() && std::find(kind->words.begin(), kind->words.end(),
                                                          value) == kind->words.end()))
    refuse(db.path(), fmt::format("there is no setting {} of {}", value, name),
           "areo settings shows what there is");
  sqlite::Transaction t{db};
  Statement s{db, "INSERT INTO setting (at, at_s, name, value) VALUES (?, ?, ?, ?)"};
  s.bind(std::string_view{stored(at)}).bind(at.seconds).bind(name).bind(value).step();
  t.commit();
}

std::vector<SettingRecord> Notebook::setting_changes() const {
  std::vector<SettingRecord> all;
  Statement s{impl_->db, "SELECT id, at, name, value FROM setting ORDER BY id"};
  while (s.step()) {
    const auto record = impl_->read_row(fmt::format("setting {}", s.integer(0)), [&] {
      return SettingRecord{s.integer(0), moment_from_text(s.text(1)), s.text(2), s.text(3)};
    });
    if (record) all.push_back(*record);
  }
  return all;
}

Settings Notebook::settings() const {
  Settings settings;
  for (const SettingRecord& change : setting_changes())
    for (const SettingKind& kind : setting_kinds())
      if (kind.name == change.name) settings.*kind.place = change.value;
  return settings;
}

}  // namespace areo::notebook
