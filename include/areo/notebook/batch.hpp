// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows about ferments: batches, what was read of them and what went into them.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/core/moment.hpp"
#include "areo/ferment/culture.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/notebook/record.hpp"

namespace areo::notebook {

[[nodiscard]] std::string_view word(ferment::Culture culture);

/// Something that ferments, in one vessel or in several bottles.
struct BatchRecord {
  Id id = 0;
  std::string name;
  std::string drink;  ///< "pear and thyme"
  ferment::Culture culture = ferment::Culture::yeast;
  std::string vessel;
  std::string volume_typed;
  std::optional<double> volume_l;
  std::string extract;  ///< kind of extract by its word; empty = mixed
  std::string liquid;   ///< or a liquid with pairs of readings
  Moment started_at;
  std::string note;
};

/// A field of a batch that was noted wrongly.
struct BatchAmendment {
  Id batch = 0;
  Moment at;
  std::string field;  ///< drink, culture, vessel, volume, extract, liquid, note
  std::string value;  ///< of the field from now on, as typed
  std::optional<double> volume_l;
  std::string reason;
};

/// A batch is closed when nobody will read it again; it may be reopened.
struct BatchEvent {
  Moment at;
  bool closed = false;
  std::string note;
};

/// Which gravity a reading is of.
enum class Stage {
  original,  ///< before it ferments
  present,   ///< at any time since
};
[[nodiscard]] std::string_view word(Stage stage);

/// Something no longer counts, or counts again, for a reason.
struct Exclusion {
  Moment at;
  bool excluded = true;
  std::string reason;
};

/// One reading of a batch as made. Readings of one sample with one instrument are repeats.
struct ReadingRecord {
  Id id = 0;
  Id batch = 0;
  std::string bottle;  ///< empty: the batch as a whole
  Id sample = 0;       ///< first reading of the same sample; 0 when added: a sample of its own
  Stage stage = Stage::present;
  Moment made_at;
  Moment noted_at;
  Id instrument = 0;
  std::string typed;
  double indication = 0;
  double half_width = 0;          ///< as coarse as typed; 0 = half a division
  std::string temperature_typed;  ///< empty: none was given
  std::optional<double> temperature_c;
  double temperature_half_width_c = 0.5;
  std::optional<Id> thermometer;
  instruments::Meniscus meniscus = instruments::Meniscus::level;
  std::optional<bool> degassed;  ///< nothing: nobody said
  std::string person;
  std::string note;
  std::optional<Id> amends;  ///< the reading that this one replaces
  std::string reason;        ///< of the amendment

  // What happened to it later, as the notebook has it.
  std::optional<Id> amended_by{};
  std::vector<Exclusion> exclusions{};  ///< in order of their time

  /// Why it does not count; empty if it does.
  [[nodiscard]] std::string excluded() const;
  [[nodiscard]] bool counts() const { return !amended_by && excluded().empty(); }
};

/// What can be added to a batch.
enum class Substance { sugar, juice, water, salt, acid, batch };
[[nodiscard]] std::string_view word(Substance substance);

struct AdditionRecord {
  Id id = 0;
  Id batch = 0;
  std::string bottle;  ///< empty: the batch as a whole
  Substance what = Substance::sugar;
  Moment made_at;
  Moment noted_at;
  std::string amount_typed;
  std::optional<double> mass_g, volume_l;  ///< exactly one
  std::string extract_typed;               ///< of a juice
  std::optional<double> extract_percent, extract_half_width;
  std::optional<Id> other;  ///< the batch that was added
  std::string into_typed;   ///< how much was there; empty: the volume of the batch
  std::optional<double> into_l;
  std::string person;
  std::string note;

  std::vector<Exclusion> exclusions{};
  [[nodiscard]] std::string excluded() const;
};

}  // namespace areo::notebook
