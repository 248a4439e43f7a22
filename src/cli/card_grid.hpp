#pragma once
// The table of a card, for each kind of instrument.
#include "areo/entry/extract_kind.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "card.hpp"

namespace areo::cli {

struct CardOptions {
  std::string name, at;
  std::string coldest, warmest, step, readings, alcohol;  ///< empty: as the instrument has it
  entry::ExtractWords extract;
  SheetOptions sheet;
};

/// What to add: by temperature and reading, or by reading alone where the temperature of the liquid
/// changes nothing. With its caption, and what its uncertainty is of.
/// @throws UsageError for options that this kind of instrument has no use for
/// @throws Error{inconsistent} for a refractometer with an index scale
[[nodiscard]] Grid card_grid(const CardSubject& subject, const CardOptions& options,
                             entry::ReadingResolver& resolver);
/// What a card says in large words: of a refractometer at 20 °C for its kind of extract, as the
/// table has it; else by its calibration.
/// @param readings  as readings_of()
[[nodiscard]] std::vector<CardOffset> card_offsets(const CardSubject& subject,
                                                   const CardOptions& options,
                                                   entry::ReadingResolver& resolver,
                                                   const std::vector<double>& readings);
/// The readings that it has entries for, ascending.
[[nodiscard]] std::vector<double> readings_of(const Grid& grid);

}  // namespace areo::cli
