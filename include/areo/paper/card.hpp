// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A card for the bench: the instrument that it is about, and its words.
#include <optional>
#include <string>
#include <vector>

#include "areo/measurement/extract_kind.hpp"
#include "areo/notebook/store.hpp"
#include "areo/paper/grid.hpp"

namespace areo::paper {

/// An instrument as it stands at a moment.
struct CardSubject {
  notebook::InstrumentRecord record;
  Moment at;
  instruments::Correction correction;
  std::optional<notebook::CalibrationRecord> calibration;  ///< in force then
  std::vector<notebook::CheckRecord> checks;               ///< that it rests on
  bool ever_checked = false;
  bool contradicted = false;             ///< its checks disagree, and none of them is in force
  std::optional<Moment> in_force_later;  ///< if none is then

  [[nodiscard]] bool corrected() const { return correction.checks > 0; }
  [[nodiscard]] bool overdue() const;
};
/// @throws Error{inconsistent} for an instrument that is retired by then
[[nodiscard]] CardSubject card_subject(const notebook::Notebook& book,
                                       const notebook::InstrumentRecord& record, Moment at);

/// The instrument's own correction at a reading.
struct CardOffset {
  double reading = 0;
  uncertainty::Value correction;
  bool everywhere = false;  ///< the same, as printed, at all readings
};
/// What a card says in large words. Where all corrections print alike, and none has more than twice
/// the uncertainty of another: the least known one. Else the first, the middle and the last, each
/// with its own uncertainty.
/// @param all  ascending, at least one
[[nodiscard]] std::vector<CardOffset> condensed(const CardSubject& subject,
                                                const std::vector<CardOffset>& all);
/// By its calibration, condensed.
/// @param readings  ascending, at least one
[[nodiscard]] std::vector<CardOffset> offsets_at(const CardSubject& subject,
                                                 const std::vector<double>& readings);

/// "SUBTRACT 0.0017 from every reading between 1.002 and 1.081 at 20 °C", or for each place
/// "SUBTRACT 0.3 ± 0.1 Brix at 0 Brix"; "NEVER CHECKED"; and whether a check is due.
[[nodiscard]] document::Headline card_headline(const CardSubject& subject,
                                               const std::vector<CardOffset>& offsets);
/// The same in one line, for the head of a log.
[[nodiscard]] std::string offset_line(const CardSubject& subject);
/// When and how it was checked, and when again: by pen if nobody said so.
[[nodiscard]] std::vector<std::string> check_lines(const CardSubject& subject);

/// The sides of its table, as they are typed; empty: as the instrument has it.
struct CardSides {
  std::string coldest{}, warmest{}, step{};  ///< of a thermometer what it shows
  std::string readings{};
  std::string alcohol{};  ///< of the drink, % vol; none if empty
};

struct Card {
  CardSubject subject;
  std::vector<CardOffset> offsets;  ///< what it says in large words
  Grid grid;                        ///< with headline and notes: the whole card
};
/// @param kind  of extract; for a refractometer
/// @throws Error{inconsistent} for a refractometer with an index scale
/// @throws ParseError, Error{domain} for sides that make no table
[[nodiscard]] Card card_of(const CardSubject& subject, const CardSides& sides,
                           const measurement::ExtractKind& kind);
/// The card without its table, for programs; the cells follow as objects of their own.
[[nodiscard]] std::string card_json(const Card& card);

}  // namespace areo::paper
