// areo table refractometer: what a reading during fermentation means, for each reading before it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/report/json.hpp"
#include "areo/report/text.hpp"
#include "bench.hpp"
#include "extract_kind.hpp"
#include "failure.hpp"
#include "parse_refraction.hpp"
#include "strength.hpp"
#include "table.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using measurement::AlcoholResult;
using measurement::RefractometerSample;

struct Options {
  std::string from = "0Bx", to = "16Bx", step = "1Bx", originals = "8,10,12,14,16";
  std::string temperature = "20C";
  bool csv = false;
  ExtractOptions extract;
  ReadingOptions with;
};

double brix_from_text(const std::string& text, const char* what) {
  const TypedNumber n = number_with_unit(text, what);
  if (!n.unit.empty() && !says_brix(n.unit))
    throw ParseError{fmt::format("{} is in Brix here", what), text, n.unit_position, n.unit.size(),
                     "write 12 or 12Bx"};
  return n.value;
}

std::vector<double> originals_from_text(const std::string& text) {
  std::vector<double> all;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(',', begin), text.size());
    all.push_back(brix_from_text(text.substr(begin, end - begin), "an original reading"));
    begin = end + 1;
  }
  return all;
}

// A nominal instrument has no error; what remains is reading, temperature, extract and method.
measurement::CalibratedRefractometer nominal() {
  auto r = instruments::ordinary_refractometer(instruments::RefractometerScale::brix);
  r.name = "a refractometer without error";
  return {r, {.checked_lo = r.lo, .checked_hi = r.hi, .checks = 1, .provenance = "nominal"}};
}

struct Sheet {
  measurement::CalibratedRefractometer instrument;
  measurement::ExtractKind kind;
  instruments::TemperatureReading temperature;
  double from, step;
  std::size_t rows;
  std::vector<double> originals;

  [[nodiscard]] double shown(std::size_t row) const {
    return from + step * static_cast<double>(row);
  }
  /// Nothing where no ferment of that original shows this.
  [[nodiscard]] std::optional<AlcoholResult> cell(std::size_t row, double original) const {
    const auto sample = [&](double brix) {
      return RefractometerSample{instrument, {brix, 0, temperature}};
    };
    if (shown(row) > original) return std::nullopt;
    try {
      return refract_fermenting(sample(shown(row)), sample(original), kind);
    } catch (const Error& e) {
      if (e.code == Errc::inconsistent) return std::nullopt;  // lower than all of it fermented
      throw;
    }
  }
};

Sheet sheet_of(const Options& o, const Session& session) {
  Bench bench{session, o.with};
  Sheet s{o.with.instrument.empty() ? nominal() : bench.refractometer(o.with.instrument),
          extract_kind(o.extract, bench),
          bench.temperature(o.temperature, celsius_point(20)),
          brix_from_text(o.from, "the first row"),
          brix_from_text(o.step, "a step"),
          0,
          originals_from_text(o.originals)};
  if (s.instrument.refractometer.scale != instruments::RefractometerScale::brix)
    throw Error{Errc::inconsistent, "this table is for Brix scales",
                "name a refractometer that shows Brix, or none"};
  const double to = brix_from_text(o.to, "the last row");
  if (!(s.step > 0) || !(s.from < to))
    throw Error{Errc::domain, "a table goes up in steps above zero",
                "e.g. --from 0 --to 16 --step 0.5"};
  constexpr double most_rows = 100'000;
  const double rows = std::floor((to - s.from) / s.step + 1e-9) + 1;
  if (rows > most_rows)
    throw Error{Errc::domain, "more than a hundred thousand rows", "take a larger step"};
  s.rows = static_cast<std::size_t>(rows);
  return s;
}

const uncertainty::Value& gravity(const AlcoholResult& a) {
  return a.result.at("sg_20_20_present").value;
}
const uncertainty::Value& strength(const AlcoholResult& a) {
  return a.result.at("alcohol_percent_vol").value;
}

// "1.0084    4.1"; a strength that is not larger than its uncertainty is a bound, "<0.3".
std::string cell_text(const AlcoholResult& a) {
  const uncertainty::Value& v = strength(a);
  const std::string text =
      a.state == measurement::Fermentation::no_change
          ? "<" + report::fixed(std::ceil((v.estimate + v.expanded()) * 10) / 10, 1)
          : report::fixed(v.estimate, 1);
  return fmt::format("{} {:>6}", report::fixed(gravity(a).estimate, 4), text);
}

void write_text(const Sheet& s) {
  constexpr int width = 15;
  line(fmt::format("present SG 20/20 and % vol by the Brix shown at {}, for {}",
                   report::celsius_text(s.temperature.indication_c),
                   s.instrument.refractometer.name));
  std::string head = fmt::format("{:>8}", "shown");
  for (const double original : s.originals)
    head += fmt::format("{:>{}}", fmt::format("from {:g}", original), width);
  line(head);
  double u_gravity = 0;
  double u_strength = 0;
  for (std::size_t row = 0; row < s.rows; ++row) {
    std::string out = fmt::format("{:>8g}", s.shown(row));
    for (const double original : s.originals) {
      const auto cell = s.cell(row, original);
      out += fmt::format("{:>{}}", cell ? cell_text(*cell) : "-", width);
      if (!cell) continue;
      u_gravity = std::max(u_gravity, gravity(*cell).expanded());
      u_strength = std::max(u_strength, strength(*cell).expanded());
    }
    line(out);
  }
  line(fmt::format(
      "± {} and ± {} % vol at the most (about 95 %): reading to half a division of {:g}",
      report::fixed(u_gravity, 4), report::fixed(u_strength, 1),
      s.instrument.refractometer.division));
  line(fmt::format("  and ± {:g} °C; extract: {}; Balling's balance. - = no ferment shows that",
                   s.temperature.half_width_c, s.kind.name));
  notes(s.instrument.correction.remarks);
  notes(s.kind.remarks);
}

void write_csv(const Sheet& s, bool full) {
  raw_line(
      "brix_shown,original_brix,sg_20_20_present,sg_20_20_present_U,alcohol_percent_vol,"
      "alcohol_percent_vol_U");
  const auto cells = [full](const uncertainty::Value& v) {
    const int decimals = report::supported_decimals(v.expanded()) + (full ? 6 : 0);
    return report::fixed(v.estimate, decimals) + "," + report::fixed(v.expanded(), decimals);
  };
  for (std::size_t row = 0; row < s.rows; ++row)
    for (const double original : s.originals) {
      const auto cell = s.cell(row, original);
      const bool bound = cell && cell->state == measurement::Fermentation::no_change;
      raw_line(fmt::format("{:g},{:g},{},{}", s.shown(row), original,
                           cell ? cells(gravity(*cell)) : ",",
                           cell && !bound ? cells(strength(*cell)) : ","));
    }
}

void write_json(const Sheet& s) {
  for (std::size_t row = 0; row < s.rows; ++row)
    for (const double original : s.originals)
      if (const auto cell = s.cell(row, original))
        raw_line(
            report::json_line(cell->result, {{"brix_shown", fmt::format("{}", s.shown(row))},
                                             {"original_brix", fmt::format("{}", original)},
                                             {"state", report::json_string(word(cell->state))}}));
}

int run_table(const Options& o, const Session& session) {
  const Sheet s = sheet_of(o, session);
  if (session.json)
    write_json(s);
  else if (o.csv)
    write_csv(s, session.full);
  else
    write_text(s);
  return done;
}

}  // namespace

void setup_table_refractometer(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  o->with.refractometer = true;
  auto t = tables.add_subcommand("refractometer", "Brix shown while fermenting, by the original");
  t.add_option("--from", o->from, "first row, Brix shown; 0 unless stated").type_name("BRIX");
  t.add_option("--to", o->to, "last row; 16 unless stated").type_name("BRIX");
  t.add_option("--step", o->step, "step between rows; 1 unless stated").type_name("BRIX");
  t.add_option("--originals", o->originals,
               "columns, Brix shown before; 8,10,12,14,16 unless "
               "stated")
      .type_name("BRIX,...");
  t.add_option("--temp", o->temperature, "of the prism, both times; 20C unless stated")
      .type_name("TEMP");
  t.add_option("--instrument", o->with.instrument,
               "refractometer in the notebook; one without error unless stated")
      .type_name("NAME");
  add_extract_options(t, o->extract);
  t.add_flag("--csv", o->csv, "as CSV, a row for each cell");
  t.footer(
      "Examples:\n  areo table refractometer --from 2 --to 12 --originals 10,12\n"
      "  areo table refractometer --instrument prism-1 --temp 18C --step 0.5 --csv");
  t.callback([=, &session, &run] {
    refuse_together(o->csv, "--csv", session.json, "--json", "choose one of them");
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
