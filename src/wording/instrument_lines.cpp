// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/instrument_lines.hpp"

#include <fmt/format.h>

#include "areo/core/shell_word.hpp"
#include "areo/instruments/stem.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/water.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::wording {

using notebook::InstrumentRecord;

namespace {

std::string counted(std::size_t n, const char* what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

// What an instrument without error shows in water at 20 °C: not 1.000 on every hydrometer.
std::string in_water(const InstrumentRecord& r) {
  const Temperature t = celsius_point(20);
  const auto* h = r.hydrometer();
  const double shown =
      h != nullptr ? instruments::usual_indication(*h, physics::water_density(t), t)
                   : instruments::ideal_indication(*r.refractometer(), physics::Liquid{}, t);
  const std::string unit = unit_of(r);
  return text::fixed(shown, text::supported_decimals(r.graduation().division / 10)) +
         (unit.empty() ? "" : " " + unit);
}

// "stem 5 mm (usual), mass 25 g (usual), scale made for 72.7 mN/m (stated)"
std::string stem_text(const instruments::Hydrometer& h) {
  const instruments::Stem s = instruments::stem_of(h);
  const auto how = [](const std::optional<double>& stated) {
    return stated ? "stated" : "taken as usual";
  };
  return fmt::format("stem {:.3g} mm ({}), mass {:.3g} g ({}), scale made for {:.3g} mN/m ({})",
                     s.diameter_mm.value, how(h.stem_diameter_mm), s.mass_g.value, how(h.mass_g),
                     s.made_for_mn_m.value, how(h.made_for_mn_m));
}

}  // namespace

std::string retired_text(const notebook::Retirement& r) {
  return fmt::format("retired on {}: {}", r.at.date(), r.reason);
}

std::string listed_text(const InstrumentRecord& r,
                        const std::optional<notebook::Retirement>& retired) {
  return fmt::format("{}: {}{}", r.name(), instrument_text(r),
                     retired ? "; " + retired_text(*retired) : "");
}

std::vector<std::string> instrument_lines(const notebook::Notebook& book,
                                          const InstrumentRecord& r) {
  std::vector<std::string> all{listed_text(r)};
  if (const auto* h = r.hydrometer()) {
    all.push_back(fmt::format("  glass expansion {:g}e-6 per °C, maximum permissible error {:g}",
                              h->glass_expansion_per_c * 1e6, h->maximum_permissible_error()));
    all.push_back("  " + stem_text(*h));
  }
  if (r.thermometer() == nullptr)
    all.push_back(fmt::format("  without error it shows {} in water at 20 °C", in_water(r)));
  all.push_back(fmt::format("  added {}; {}, {}", r.added_at.date(),
                            counted(book.checks(r.id).size(), "check"),
                            counted(book.calibrations(r.id).size(), "calibration")));
  const auto correction = notebook::correction_in_force(book, r, now());
  all.push_back("  correction now: " + correction.provenance);
  if (!r.maker.empty() || !r.serial.empty())
    all.push_back(fmt::format("  maker: {}; serial number: {}",
                              r.maker.empty() ? "not stated" : r.maker,
                              r.serial.empty() ? "not stated" : r.serial));
  if (!r.note.empty()) all.push_back("  note: " + r.note);
  for (const std::string& remark : correction.remarks) all.push_back("note: " + remark);
  return all;
}

std::string first_check_text(const InstrumentRecord& r) {
  const std::string name = shell_word(r.name());
  if (r.thermometer() != nullptr)
    return fmt::format("in melting ice it should show 0 °C; areo calibrate ice {} READING", name);
  return fmt::format(
      "in clean water at 20 °C it should show {}; areo calibrate water {} READING TEMP",
      in_water(r), name);
}

}  // namespace areo::wording
