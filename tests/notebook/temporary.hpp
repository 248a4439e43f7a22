// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A folder of its own for a test, gone afterwards, what goes into a notebook, and what it refuses.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

#include "areo/core/error.hpp"
#include "areo/core/moment.hpp"
#include "areo/notebook/store.hpp"
#include "notebook/sqlite.hpp"

namespace areo::notebook {

class Folder {
 public:
  Folder() {
    const std::string name = "areo-test-" + std::string(6, 'X');  // mkdtemp() fills these in
    std::string pattern = (std::filesystem::temp_directory_path() / name).string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error{"no temporary folder"};
    path_ = pattern;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

class TemporaryFolder : public testing::Test {
 protected:
  [[nodiscard]] std::string path(const std::string& name = "notebook.db") const {
    return (folder() / name).string();
  }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_.path(); }

 private:
  Folder folder_;
};

inline std::set<std::string> names_in(const std::filesystem::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator{folder})
    names.insert(entry.path().filename().string());
  return names;
}

inline std::string bytes_of(const std::string& file) {
  std::ifstream in{file, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

inline InstrumentRecord hydrometer(const std::string& name) {
  instruments::Hydrometer h;
  h.name = name;
  InstrumentRecord r;
  r.instrument = h;
  r.added_at = moment_from_text("2026-02-28T18:00:00+01:00");
  return r;
}

inline InstrumentRecord refractometer(const std::string& name) {
  instruments::Refractometer r =
      instruments::ordinary_refractometer(instruments::RefractometerScale::brix);
  r.name = name;
  InstrumentRecord record;
  record.instrument = r;
  record.added_at = moment_from_text("2026-02-28");
  return record;
}

inline CheckRecord water_check(Id instrument, double reading, const char* at) {
  CheckRecord c;
  c.instrument = instrument;
  c.made_at = moment_from_text(at);
  c.reading_typed = std::to_string(reading);
  c.reading = reading;
  c.temperature_typed = "21C";
  c.temperature_c = 21;
  c.water = calibration::Water::pure;
  return c;
}

inline CalibrationRecord calibration(Id instrument, std::vector<Id> checks, const char* from) {
  CalibrationRecord r;
  r.instrument = instrument;
  r.checks = std::move(checks);
  r.in_force_from = moment_from_text(from);
  return r;
}

/// The file behind a notebook, by itself.
inline sqlite::Connection raw(const std::string& path) {
  return {path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
}

inline InstrumentRecord thermometer(const std::string& name) {
  InstrumentRecord r;
  r.instrument = instruments::Thermometer{.name = name};
  r.added_at = moment_from_text("2026-02-28");
  return r;
}

/// What the store, or a rule about what can be noted, says; or "accepted".
template <class F>
std::string refusal(F&& act) {
  try {
    act();
  } catch (const Error& e) {
    EXPECT_TRUE(e.code == Errc::store || e.code == Errc::inconsistent || e.code == Errc::domain)
        << e.what();
    return std::string{e.what()} + " | " + e.hint;
  }
  return "accepted";
}

inline void expect_contains(const std::string& text, const std::string& part) {
  EXPECT_NE(text.find(part), std::string::npos) << '"' << text << "\" lacks \"" << part << '"';
}

}  // namespace areo::notebook
