#pragma once
// What a report tells of: a batch with its bottles.
#include <optional>
#include <string>
#include <vector>

#include "areo/document/page.hpp"
#include "areo/wording/limit.hpp"
#include "areo/wording/trend.hpp"

namespace areo::cli {

/// Of one bottle, or of the batch as a whole.
struct Account {
  std::string bottle;
  trend::History history;
  std::optional<trend::Passing> passing{};  ///< if a limit was asked for
  std::vector<std::string> corrections{};   ///< what has to be said of two that are mixed

  /// The last point that has a strength, be it an upper bound, and is not odd; nothing if there is
  /// none.
  [[nodiscard]] const batch::Point* last_strength() const;
};

/// What a guest drinks: common practice, no source.
inline constexpr double usual_glass_l = 0.2;

struct Material {
  const notebook::Notebook* book;
  batch::Batch* batch;
  std::vector<Account> accounts;      ///< at least one
  std::vector<std::string> silent{};  ///< a sentence for each bottle that nothing can be said of
  std::optional<double> expected{};
  std::optional<wording::Limit> limit{};
  bool full = false;
  double glass_l = usual_glass_l;
};

/// @param bottle  of this one only; empty = all that were read
/// @throws Error{inconsistent} for a bottle that is not there; Error{domain} if nothing can be said
///         of any
[[nodiscard]] Material material_of(const notebook::Notebook& book, batch::Batch& batch,
                                   const std::string& bottle, const std::optional<double>& expected,
                                   const std::optional<wording::Limit>& limit, bool full);

/// Whether something went into a bottle, or into the batch before it, and counts.
[[nodiscard]] bool concerns(const notebook::AdditionRecord& addition, const Account& a);

/// "The batch", "Bottle A"
[[nodiscard]] std::string title_of(const Account& a);
/// The strength of each bottle, and what goes with it, for the first look.
/// @param with_state  how the ferment goes, and how sure a limit is: for those who made it
void write_headline(document::Page& page, const Material& m, bool with_state);
/// Cautions for every page.
void write_cautions(document::Page& page);

/// Everything, for the one who made it and for those who check it.
void write_full(document::Page& page, const Material& material);
/// One sheet for people who only want to know what is in the glass.
void write_audience(document::Page& page, const Material& material);

}  // namespace areo::cli
