// SPDX-License-Identifier: GPL-3.0-or-later
#include "rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/mixture.hpp"
#include "migrate.hpp"

namespace areo::notebook {
namespace {

constexpr const char* mend = "nothing was changed; mend the row, or leave it out";

// From 2^53 on a number is not the same in every program that reads an export; below half of that
// as many can follow.
constexpr std::int64_t most_id = std::int64_t{1} << 52;
// Nothing that is read, weighed or poured is as much, in any of the notebook's units.
constexpr double most = 1e9;

void require(bool holds, const char* why) {
  if (!holds) throw Error{Errc::inconsistent, why};
}

std::string row_name(const Table& table, const std::vector<Cell>& cells) {
  const auto* id = std::get_if<std::int64_t>(&cells.front());
  return id != nullptr ? fmt::format("{} {}", table.name, *id) : "a row of " + table.name;
}

bool is_seconds(const std::string& column) { return column.ends_with("_s"); }

const Cell* cell_named(const Table& table, const std::vector<Cell>& cells,
                       std::string_view column) {
  for (std::size_t i = 0; i < cells.size(); ++i)
    if (table.columns[i].name == column) return &cells[i];
  return nullptr;
}

// A column that may be empty is so for good: what a hydrometer is rests on these, and a thermometer
// knows one scale.
void require_parts_of_instrument(const Table& table, const std::vector<Cell>& cells) {
  const auto holds = [&](const char* column, const Cell& value) {
    const Cell* cell = cell_named(table, cells, column);
    return cell != nullptr && *cell == value;
  };
  if (holds("kind", std::string{"hydrometer"})) {
    for (const char* column :
         {"scale_sample_c", "scale_water_c", "scale_modulus", "glass_expansion_per_c"})
      require(!holds(column, std::monostate{}), "what its scale and its glass are is missing");
  } else {
    for (const char* column : {"scale_sample_c", "scale_water_c", "scale_modulus",
                               "glass_expansion_per_c", "meniscus_height"})
      require(holds(column, std::monostate{}), "it has a part that only a hydrometer has");
  }
  require(!holds("kind", std::string{"thermometer"}) || holds("scale_kind", std::string{"celsius"}),
          "a thermometer shows degrees Celsius");
}

// A column "at_s" holds the seconds of "at".
bool same_moment(const Cell& seconds, const Cell* written) {
  const auto* s = std::get_if<std::int64_t>(&seconds);
  const auto* text = written != nullptr ? std::get_if<std::string>(written) : nullptr;
  if (s == nullptr || text == nullptr) return s == nullptr && text == nullptr;
  return moment_from_text(*text).seconds == *s;
}

// As areo writes it: with an offset, so that it is the same moment wherever it is read.
void require_written(const std::string& moment) {
  require(moment_from_text(moment).text() == moment, "a moment is not as areo writes it");
}
bool is_moment(const Table& table, const std::string& column) {
  return column == "added_at" || column == "at" ||
         std::any_of(table.columns.begin(), table.columns.end(),
                     [&](const Column& c) { return c.name == column + "_s"; });
}

// Now, or when the clock of whoever noted something was ahead, then.
Moment latest(const Notebook& book) {
  Moment m = now();
  for (const BatchRecord& b : book.batches()) {
    for (const ReadingRecord& r : book.readings(b.id)) m = std::max(m, r.noted_at);
    for (const AdditionRecord& a : book.additions(b.id)) m = std::max(m, a.noted_at);
  }
  return m;
}

void require_number(const std::optional<double>& v) {
  require(!v || std::abs(*v) <= most, "a number is out of any range");
}

void require_scale(const Graduation& g) {
  require(
      g.lo < g.hi && g.division > 0 && g.division < g.hi - g.lo && g.maximum_permissible_error > 0,
      "its scale cannot be");
}

void require_valid(const InstrumentRecord& r) {
  const Graduation g = r.graduation();
  for (const double v : {g.lo, g.hi, g.division, g.maximum_permissible_error}) require_number(v);
  require_scale(r.graduation());
  const auto* h = r.hydrometer();
  if (h == nullptr) return;
  constexpr double most_expansion_per_c = 1e-3;  // ten times that of any glass
  require(h->glass_expansion_per_c >= 0 && h->glass_expansion_per_c <= most_expansion_per_c,
          "no glass expands so");
  require(h->meniscus_height.value_or(0) >= 0 && h->meniscus_height.value_or(0) <= h->hi - h->lo,
          "its meniscus cannot be");
  for (const double end : {h->lo, h->hi}) (void)physics::density_from_mark(h->scale, end);
  for (const auto& part : {h->stem_diameter_mm, h->mass_g, h->made_for_mn_m})
    require(part.value_or(1) > 0 && part.value_or(1) <= most,
            "its stem, its mass and a surface tension are above zero");
}

void require_on_scale_of(const InstrumentRecord& r, double indication) {
  if (const auto* h = r.hydrometer())
    instruments::require_on_scale(*h, indication);
  else if (const auto* p = r.refractometer())
    instruments::require_on_scale(*p, indication);
  else
    instruments::require_on_scale(*r.thermometer(), indication);
}

// Each is looked up once.
class Instruments {
 public:
  explicit Instruments(const Notebook& book) : book_{&book} {}
  const InstrumentRecord& operator[](Id id) {
    const auto known = known_.find(id);
    return known != known_.end() ? known->second
                                 : known_.emplace(id, book_->instrument(id)).first->second;
  }
  [[nodiscard]] const Notebook& book() const { return *book_; }
  void require_past(Moment m) {
    if (m > latest_) latest_ = latest(*book_);
    require(m <= latest_, "it lies in the future");
  }

 private:
  const Notebook* book_;
  std::map<Id, InstrumentRecord> known_;
  Moment latest_ = now();
};

void require_thermometer(Instruments& known, const std::optional<Id>& id) {
  require(!id || known[*id].thermometer() != nullptr,
          "what read its temperature is no thermometer");
}

// Not wider than what it is of.
void require_half_widths(const InstrumentRecord& with, double reading, double temperature_c) {
  constexpr double most_c = 100;
  const Graduation g = with.graduation();
  require(reading >= 0 && reading <= g.hi - g.lo, "the half-width of its reading cannot be");
  require(temperature_c >= 0 && temperature_c <= most_c,
          "the half-width of its temperature cannot be");
}

void require_sample_temperature(const std::optional<double>& celsius, bool drink) {
  if (!celsius) return;
  areo::require(physics::mixture_temperature_range, *celsius);
  if (drink) physics::require_drink_temperature(celsius_point(*celsius));
}

void require_valid(Instruments& known, const InstrumentRecord& of, const CheckRecord& c) {
  known.require_past(c.made_at);
  if (c.solution) {
    require_number(c.solution->solute_g);
    require_number(c.solution->water_g);
  }
  constexpr double least_expanded = 1e-9;
  require_thermometer(known, c.thermometer);
  require_on_scale_of(of, c.reading);
  require_half_widths(of, c.reading_half_width, c.temperature_half_width_c);
  require_method(of, c.method);
  const bool dissolved = c.method == CheckMethod::sugar || c.method == CheckMethod::salt;
  require(dissolved == c.solution.has_value(), "it is not known what was dissolved");
  require(c.method != CheckMethod::boiling || (c.pressure_pa && c.pressure_half_width_pa),
          "it is not known at which pressure it boiled");
  require(c.method != CheckMethod::certificate ||
              (c.correction && c.expanded && c.coverage_factor && *c.expanded >= least_expanded &&
               *c.coverage_factor >= 1 && *c.coverage_factor <= 10),
          "it is not known what the certificate says");
  (void)evaluate(known.book(), of, std::span{&c, 1});
}

void require_valid(Instruments& known, const BatchRecord& batch, const ReadingRecord& r) {
  require(r.batch == batch.id, "it is of another batch");
  require(r.made_at <= r.noted_at, "it was noted before it was made");
  require_thermometer(known, r.thermometer);
  const InstrumentRecord& with = known[r.instrument];
  require(with.thermometer() == nullptr, "a thermometer reads no gravity");
  require_on_scale_of(with, r.indication);
  require(with.refractometer() == nullptr || r.meniscus == instruments::Meniscus::level,
          "a refractometer has no meniscus");
  require_half_widths(with, r.half_width, r.temperature_half_width_c);
  require_sample_temperature(r.temperature_c, r.stage == Stage::present);
}

// Excluded, included, excluded again ...
void require_turns(const std::vector<Exclusion>& all) {
  bool excluded = false;
  for (const Exclusion& e : all) {
    require(e.excluded != excluded, "it is excluded, or counts again, twice");
    excluded = e.excluded;
  }
}

// Repeats are of one moment; an amendment may have put one of them right.
bool same_sample(const ReadingRecord& a, const ReadingRecord& b) {
  return a.instrument == b.instrument &&
         (a.amends || b.amends ||
          (a.made_at == b.made_at && a.stage == b.stage && a.bottle == b.bottle));
}

// An amendment replaces an earlier reading of the same batch, a repeat belongs to an earlier one of
// the same instrument.
void require_order(const std::vector<ReadingRecord>& readings) {
  std::map<Id, const ReadingRecord*> known;
  for (const ReadingRecord& r : readings) known.emplace(r.id, &r);
  for (const ReadingRecord& r : readings) {
    const auto first = known.find(r.sample);
    const auto amended = r.amends ? known.find(*r.amends) : first;
    const std::string row = fmt::format("reading {}: ", r.id);
    if (first == known.end() || first->first > r.id || !same_sample(*first->second, r))
      throw Error{Errc::inconsistent, row + "its sample is no earlier reading of the same kind"};
    if (amended == known.end() || amended->first > r.id || r.amends == r.id)
      throw Error{Errc::inconsistent, row + "it amends no earlier reading of the batch"};
    require_turns(r.exclusions);
  }
}

void require_order(const std::vector<BatchEvent>& events) {
  bool closed = false;
  for (const BatchEvent& e : events) {
    require(e.closed != closed, "it is closed, or reopened, twice");
    closed = e.closed;
  }
}

void require_valid(const AdditionRecord& a) {
  require(a.made_at <= a.noted_at, "it was noted before it was made");
  require_turns(a.exclusions);
  for (const auto& v : {a.mass_g, a.volume_l, a.into_l}) require_number(v);
  require(a.what != Substance::sugar || a.mass_g, "sugar is weighed");
  require(a.bottle.empty() || a.into_l, "nobody said how much was in the bottle");
  require(a.extract_half_width.value_or(0) >= 0 && a.extract_half_width.value_or(0) <= 100,
          "the half-width of its extract cannot be");
  require(!a.extract_percent || (*a.extract_percent >= 0 && *a.extract_percent <= 100),
          "an extract is from 0 to 100 %");
}

void require_valid(Instruments& known, const LiquidPairRecord& p) {
  known.require_past(p.made_at);
  require_thermometer(known, p.thermometer);
  for (const PairHalf& half : {p.refraction, p.gravity}) {
    require_on_scale_of(known[half.instrument], half.reading);
    require_half_widths(known[half.instrument], half.half_width, p.temperature_half_width_c);
    require_sample_temperature(half.temperature_c, false);
  }
  require(known[p.refraction.instrument].refractometer() != nullptr &&
              known[p.gravity.instrument].hydrometer() != nullptr,
          "a pair is read with a refractometer and a hydrometer");
  const auto alone = liquid_factor(known.book(), std::span{&p, 1});
  require(std::isfinite(alone.optics.relative_rise) && std::isfinite(alone.optics.uncertainty),
          "nothing follows from it");
}

// What holds() finds wrong is said of its row.
template <class Holds>
void of_row(const std::string& path, const std::string& row, const Holds& holds) {
  try {
    holds();
  } catch (const Error& e) {
    refuse(path, fmt::format("{} could not have been noted: {}", row, e.what()), mend);
  }
}

template <class Holds>
void of_typed(const Holds& holds) {
  try {
    holds();
  } catch (const Error& e) {
    throw Error{e.code, fmt::format("this cannot be: {}", e.what()),
                e.hint.empty() ? "nothing was noted; look at what was typed" : e.hint};
  }
}

}  // namespace

void require_plain(const std::string& path, const Table& table, const std::vector<Cell>& cells) {
  of_row(path, row_name(table, cells), [&] {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const std::string& column = table.columns[i].name;
      const bool text = std::holds_alternative<std::string>(cells[i]);
      require(std::holds_alternative<std::monostate>(cells[i]) || text == table.columns[i].text,
              "a number is a number, and a text a text");
      const auto* number = std::get_if<double>(&cells[i]);
      require(number == nullptr || std::abs(*number) <= most, "a number is out of any range");
      if (is_seconds(column)) {
        const std::string written = column.substr(0, column.size() - 2);
        require(same_moment(cells[i], cell_named(table, cells, written)),
                "a moment and its seconds differ");
      } else if (const auto* whole = std::get_if<std::int64_t>(&cells[i]);
                 whole != nullptr && table.columns[i].whole) {
        require(*whole >= 0 && *whole < most_id, "a number of a row is out of range");
        require(column != "id" || *whole > 0, "a row has a number above zero");
      } else if (is_moment(table, column)) {
        if (text) require_written(std::get<std::string>(cells[i]));
      }
    }
    if (table.name == "instrument") require_parts_of_instrument(table, cells);
  });
}

void require_plausible(const Notebook& book, const std::string& path, const IsNew& is_new) {
  Instruments known{book};
  const auto of_new = [&](const char* table, Id id, const auto& holds) {
    if (is_new(table, id)) of_row(path, fmt::format("{} {}", table, id), holds);
  };
  for (const InstrumentRecord& i : book.instruments()) {
    of_new("instrument", i.id, [&] { require_valid(i); });
    for (const CheckRecord& c : book.checks(i.id))
      of_new("check_reading", c.id, [&] { require_valid(known, i, c); });
    for (const CalibrationRecord& c : book.calibrations(i.id))
      of_new("calibration", c.id, [&] {
        const auto checks = checks_of(book, c);
        require(!checks.empty() && checks.size() == c.checks.size(),
                "it rests on checks of this instrument");
        require(!c.due || *c.due > c.in_force_from, "it was due before it was in force");
        known.require_past(c.in_force_from);
        (void)fit(book, i, checks);
      });
  }
  for (const BatchRecord& b : book.batches()) {
    const auto readings = book.readings(b.id);
    of_row(path, fmt::format("batch {}", b.id), [&] {
      require_order(book.events(b.id));
      require_order(readings);
    });
    of_new("batch", b.id, [&] {
      known.require_past(b.started_at);
      require_number(b.volume_l);
    });
    for (const ReadingRecord& r : readings)
      of_new("reading", r.id, [&] { require_valid(known, b, r); });
    for (const AdditionRecord& a : book.additions(b.id))
      of_new("addition", a.id, [&] { require_valid(a); });
  }
  for (const SettingRecord& s : book.setting_changes())
    of_new("setting", s.id, [&] { known.require_past(s.at); });
  for (const std::string& liquid : book.liquids())
    for (const LiquidPairRecord& p : book.liquid_pairs(liquid))
      of_new("liquid_pair", p.id, [&] { require_valid(known, p); });
}

void require_typed(const Notebook&, const InstrumentRecord& r) {
  of_typed([&] { require_valid(r); });
}
void require_typed(const Notebook& book, const CheckRecord& r) {
  Instruments known{book};
  of_typed([&] { require_valid(known, known[r.instrument], r); });
}
void require_typed(const Notebook&, const AdditionRecord& r) {
  of_typed([&] { require_valid(r); });
}
void require_typed(const Notebook& book, const LiquidPairRecord& r) {
  Instruments known{book};
  of_typed([&] { require_valid(known, r); });
}
void require_typed(const Notebook& book, std::span<const ReadingRecord> sample) {
  Instruments known{book};
  for (const ReadingRecord& r : sample) {
    const InstrumentRecord& with = known[r.instrument];
    of_typed([&] { require_half_widths(with, r.half_width, r.temperature_half_width_c); });
  }
}
void require_typed_volume(const std::optional<double>& litres) {
  of_typed([&] { require_number(litres); });
}

}  // namespace areo::notebook
