// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/liquid_pairs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/instrument.hpp"
#include "areo/wording/liquid.hpp"

namespace areo::wording {

using notebook::LiquidPairRecord;

std::optional<calibration::LiquidFactor> factor_of(const notebook::Notebook& book,
                                                   const std::string& liquid) {
  const auto pairs = book.liquid_pairs(liquid);
  if (!pairs.empty() && std::all_of(pairs.begin(), pairs.end(),
                                    [](const LiquidPairRecord& p) { return !p.left_out.empty(); }))
    return std::nullopt;
  return notebook::liquid_factor(book, liquid);
}

std::vector<std::string> known_factor_lines(const std::string& liquid,
                                            const std::optional<calibration::LiquidFactor>& f) {
  if (!f) return {liquid + ": no factor, all of its pairs are left out"};
  return factor_lines(liquid, *f);
}

std::vector<std::string> pair_lines(const notebook::Notebook& book, const std::string& liquid,
                                    const std::optional<calibration::LiquidFactor>& f) {
  std::vector<std::string> all;
  std::size_t counted = 0;
  for (const LiquidPairRecord& p : book.liquid_pairs(liquid)) {
    const auto prism = book.instrument(p.refraction.instrument);
    const auto stem = book.instrument(p.gravity.instrument);
    all.push_back(fmt::format("  pair {} of {}: {} shows {}, {} shows {}: {}", p.id,
                              p.made_at.date(), prism.name(), shown(prism, p.refraction.reading),
                              stem.name(), shown(stem, p.gravity.reading),
                              p.left_out.empty() && f ? text::value_text(f->each[counted++], "")
                                                      : "left out, " + p.left_out));
  }
  return all;
}

}  // namespace areo::wording
