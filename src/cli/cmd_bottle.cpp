// areo bottle: what is left to ferment, and the pressure it could make in a closed bottle.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/measurement/bottle.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/report/json.hpp"
#include "areo/report/text.hpp"
#include "areo/trend/history.hpp"
#include "batch_text.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "strength.hpp"
#include "trend_text.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using measurement::BottlePlan;
using measurement::BottleResult;
using measurement::Priming;
using measurement::Quantity;
using measurement::RatingVerdict;
using trend::Phase;

struct Options {
  std::string name, bottle, temperature, storage, headspace, expected, carbonation, volume, rating;
};

// How a ferment may end in the bottle.
struct Case {
  std::string key, words;  ///< of the quantities; after "if"
};

struct Told {
  const Point& point;
  Phase phase;
  bool stuck;
  const BottlePlan& plan;
  const BottleResult& outcome;
  std::vector<Case> cases;
  std::optional<Pressure> rating;
};

// --- what was asked ---

// What could be read of the drink last.
const Point& last_of(const Batch& batch, const trend::History& h, const std::string& bottle) {
  const std::string& name = batch.record().name;
  const auto last = std::find_if(h.points.rbegin(), h.points.rend(), [](const Point& p) {
    return p.computed() && p.sample.first().stage == notebook::Stage::present;
  });
  if (last == h.points.rend())
    throw Error{Errc::inconsistent, fmt::format("{} was not read since its original gravity", name),
                fmt::format("read it before a bottle is closed: areo reading add {} 1.010", name)};
  if (!last->drink)
    throw Error{
        Errc::inconsistent,
        fmt::format("{} has no original gravity, so what is left of its sugar is unknown", name),
        "the gravity alone does not tell sugar from alcohol; close no bottle on it"};
  if (batch.added_since(last->sample, bottle))
    throw Error{Errc::inconsistent,
                fmt::format("something was added to {} since its last reading", name),
                "mix it well and read again; what is left of its sugar is unknown until then"};
  return *last;
}

instruments::TemperatureReading closing_temperature(Batch& batch, const Point& p,
                                                    const std::string& typed) {
  if (typed.empty()) {
    const auto& first = p.sample.first();
    return batch.shelf().temperature(celsius_point(20), first.temperature_c,
                                     first.temperature_half_width_c, first.thermometer,
                                     first.made_at);
  }
  instruments::TemperatureReading t;
  t.indication_c = liquid_celsius_from_text(typed);
  t.half_width_c = std::max(t.half_width_c, celsius_half_width(typed));
  return t;
}

// All but the temperature of the drink.
BottlePlan plan_from(const Options& o) {
  BottlePlan plan;
  if (!o.storage.empty()) {
    plan.storage_c = celsius_from_text(o.storage);
    require(physics::solubility_temperature_range, plan.storage_c);
    plan.storage_half_width_c =
        std::max(instruments::TemperatureReading{}.half_width_c, celsius_half_width(o.storage));
  }
  if (!o.headspace.empty()) {
    const TypedShare share = headspace_from_text(o.headspace);
    plan.headspace = share.value;
    plan.headspace_half_width = share.half_width;
  }
  plan.expected_sg = expected_from_text(o.expected);
  if (!o.carbonation.empty()) plan.carbonation = carbonation_from_text(o.carbonation);
  if (!o.volume.empty()) plan.volume_l = litres_from_text(o.volume);
  return plan;
}

std::vector<Case> cases_of(const BottlePlan& plan, Priming priming) {
  std::vector<Case> cases{{"now", "nothing more ferments"}};
  if (plan.expected_sg)
    cases.push_back(
        {"expected", fmt::format("it ends at {}", report::fixed(*plan.expected_sg, 4))});
  cases.push_back({"all", "everything ferments"});
  if (priming == Priming::figure)
    cases.push_back({"primed", "everything and the priming sugar ferments"});
  return cases;
}

const Quantity& pressure_of(const Told& t, const std::string& key) {
  return t.outcome.result.at("gauge_pressure_" + key + "_bar");
}

RatingVerdict verdict_of(const Told& t, const Case& c) {
  return measurement::against_rating(pressure_of(t, c.key), *t.rating);
}

bool all_below(const Told& t) {
  return std::all_of(t.cases.begin(), t.cases.end(),
                     [&](const Case& c) { return verdict_of(t, c) == RatingVerdict::below; });
}

// --- for people ---

std::string range_text(const Quantity& q, bool full) {
  return report::interval_text(measurement::range_of(q), q.unit, full);
}

void print_cases(const Told& t, bool full) {
  std::vector<std::vector<std::string>> rows{{"if", "CO2 in the bottle", "", "pressure"}};
  for (const Case& c : t.cases)
    rows.push_back({c.words, range_text(t.outcome.result.at("co2_" + c.key + "_g_l"), full),
                    range_text(t.outcome.result.at("co2_" + c.key + "_volumes"), full),
                    range_text(pressure_of(t, c.key), full)});
  for (const std::string& text : report::aligned(rows)) line("  " + text);
}

void print_priming(const Told& t, const std::string& name, bool full) {
  if (t.outcome.priming == Priming::none) return;
  const std::string wanted = fmt::format("priming for {:.3g} g/L: ", *t.plan.carbonation);
  if (t.outcome.priming == Priming::enough) {
    line(wanted +
         "no figure; what is dissolved and the sugar that is left can make as much or more");
    if (!t.plan.expected_sg)
      line("  all extract was counted; if you know where it ends: --expected SG");
    return;
  }
  const auto& r = t.outcome.result;
  std::string amount = range_text(r.at("priming_sugar_g_l"), full) + " of table sugar";
  if (t.plan.volume_l)
    amount +=
        fmt::format(", {} for {:g} L", range_text(r.at("priming_sugar_g"), full), *t.plan.volume_l);
  line(fmt::format("{}{}; as carbonated {}", wanted, amount,
                   range_text(r.at("gauge_pressure_carbonated_bar"), full)));
  if (!t.plan.volume_l)
    line(fmt::format("  how much in all: areo bottle {} ... --volume 5L", name));
}

void print_rating(const Told& t) {
  if (!t.rating) return;
  const std::string rating = fmt::format("{:.3g} bar", t.rating->value() / 1e5);
  if (all_below(t)) {
    line(fmt::format("below the rating of {} as far as these readings tell", rating));
    return;
  }
  for (const Case& c : t.cases) switch (verdict_of(t, c)) {
      case RatingVerdict::above:
        line(fmt::format("ABOVE the rating of {} if {}", rating, c.words));
        break;
      case RatingVerdict::below:
        line(fmt::format("below the rating of {} if {}, as far as these readings tell", rating,
                         c.words));
        break;
      case RatingVerdict::cannot_tell:
        line(
            fmt::format("CANNOT TELL whether it is below the rating of {} if {}", rating, c.words));
        break;
    }
}

const char* state_text(const Told& t) {
  if (t.stuck) return "STUCK above where it should end: it may start again";
  switch (t.phase) {
    case Phase::steady: return "steady";
    case Phase::active: return "STILL FERMENTS";
    case Phase::slowing: return "STILL FERMENTS, slower than before";
    case Phase::lag:
    case Phase::unclear: break;
  }
  return "these readings do not show that it has stopped";
}

void note_culture(ferment::Culture culture) {
  if (culture == ferment::Culture::yeast) return;
  line(fmt::format(
      "note: a culture that makes acids makes less CO2 of the same sugar, or none: what yeast "
      "would make is the upper bound{}",
      culture == ferment::Culture::acetic
          ? "; it uses up alcohol too, and then more extract is read than there is"
          : ""));
}

std::string next_text(const Told& t, const std::string& name) {
  if (t.phase != Phase::steady)
    return fmt::format("close nothing yet; read again in a day, areo trend {}", name);
  if (t.stuck) return "find out why before a bottle is closed; then read again";
  if (!t.rating)
    return fmt::format("what does the maker of your bottle say? areo bottle {} --rating 6bar",
                       name);
  if (!all_below(t)) return "a bottle rated higher, or leave it open and read again in a week";
  return "open one bottle after some days, cold, before you trust the others";
}

void print(const Batch& batch, const Options& o, const Told& t, bool full) {
  const std::string& name = batch.record().name;
  line(batch_text(batch.record()) + (o.bottle.empty() ? "" : "; bottle " + o.bottle));
  line(fmt::format("reading {} of {}: gravity 20/20 {}; {}", numbers(t.point.sample),
                   when_text(t.point.sample.at()),
                   report::value_text(t.point.gravity().value, "", full), state_text(t)));
  const auto& r = t.outcome.result;
  line(fmt::format("sugar that could still ferment: {}, counting all extract",
                   range_text(r.at("sugar_all_g_l"), full)));
  if (t.plan.expected_sg)
    line(fmt::format("  down to {}: {}", report::fixed(*t.plan.expected_sg, 4),
                     range_text(r.at("sugar_expected_g_l"), full)));
  line(fmt::format("CO2 dissolved at {}: {}", report::celsius_text(t.plan.closing.indication_c),
                   range_text(r.at("co2_dissolved_g_l"), full)));
  line(fmt::format("closed and kept at {}{} with {:g} % headspace (about 95 %):",
                   report::celsius_text(t.plan.storage_c), o.storage.empty() ? " ± 5 °C" : "",
                   100 * t.plan.headspace));
  print_cases(t, full);
  print_priming(t, name, full);
  print_rating(t);
  if (std::any_of(t.cases.begin(), t.cases.end(), [&](const Case& c) {
        return measurement::beyond_measurements(pressure_of(t, c.key));
      }))
    line("note: above 10 bar the solubility was not measured: trust no figure there");
  notes(r.notes);
  note_culture(batch.record().culture);
  line("only bottles made for pressure, and their maker's rating rules; glass can burst;");
  line("  nobody knows the sugar that is left exactly; keep them cold, never warm them");
  line("next: " + next_text(t, name));
}

// --- for programs ---

const char* word(RatingVerdict v) {
  switch (v) {
    case RatingVerdict::below: return "below";
    case RatingVerdict::above: return "above";
    case RatingVerdict::cannot_tell: break;
  }
  return "cannot_tell";
}

const char* word(Priming p) {
  switch (p) {
    case Priming::figure: return "figure";
    case Priming::enough: return "enough";
    case Priming::none: break;
  }
  return "none";
}

std::string optional_json(const std::optional<double>& v) {
  return v ? fmt::format("{}", *v) : "null";
}

std::string verdicts_json(const Told& t) {
  if (!t.rating) return "null";
  std::vector<std::string> all;
  for (const Case& c : t.cases)
    all.push_back(fmt::format(R"("{}":"{}")", c.key, word(verdict_of(t, c))));
  return fmt::format("{{{}}}", fmt::join(all, ","));
}

void print_json(const Batch& batch, const Options& o, const Told& t) {
  const BottlePlan& p = t.plan;
  raw_line(report::json_line(
      t.outcome.result,
      {{"batch", report::json_string(batch.record().name)},
       {"bottle", report::json_string(o.bottle)},
       {"readings", fmt::format("[{}]", numbers(t.point.sample))},
       {"state", fmt::format("\"{}\"", t.stuck ? "stuck" : cli::word(t.phase))},
       {"culture", fmt::format("\"{}\"", notebook::word(batch.record().culture))},
       {"closed_at_c", fmt::format("{}", p.closing.indication_c)},
       {"storage_c", fmt::format("{}", p.storage_c)},
       {"headspace_percent", fmt::format("{}", 100 * p.headspace)},
       {"expected_sg_20_20", optional_json(p.expected_sg)},
       {"carbonation_g_l", optional_json(p.carbonation)},
       {"volume_l", optional_json(p.volume_l)},
       {"priming", fmt::format("\"{}\"", word(t.outcome.priming))},
       {"rating_bar", t.rating ? fmt::format("{}", t.rating->value() / 1e5) : "null"},
       {"rating_verdicts", verdicts_json(t)}}));
}

int run_bottle(const Options& o, const Session& session) {
  BottlePlan plan = plan_from(o);
  std::optional<Pressure> rating;
  if (!o.rating.empty()) rating = rating_from_text(o.rating);
  if (!o.temperature.empty()) (void)liquid_celsius_from_text(o.temperature);
  const notebook::Notebook book{notebook_path(session), notebook::Open::read};
  Batch batch{book, o.name};
  require_bottle(batch, o.bottle);
  const trend::History h = trend::history_of(batch, o.bottle);
  const Point& point = last_of(batch, h, o.bottle);
  plan.closing = closing_temperature(batch, point, o.temperature);
  if (!plan.volume_l && o.bottle.empty()) plan.volume_l = batch.record().volume_l;
  const BottleResult outcome = measurement::bottle(*point.drink, plan);
  const Told told{point, h.state.phase, is_stuck(h, plan.expected_sg),
                  plan,  outcome,       cases_of(plan, outcome.priming),
                  rating};
  if (session.json)
    print_json(batch, o, told);
  else
    print(batch, o, told, session.full);
  return !rating || all_below(told) ? done : said_no;
}

}  // namespace

void setup_bottle(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("bottle", "what could still ferment, and its pressure in a bottle");
  c.add_option("name", o->name, "the batch").required();
  c.add_option("--bottle", o->bottle, "of which bottle; the batch as a whole unless stated")
      .type_name("NAME");
  c.add_option("--temp", o->temperature,
               "of the drink when a bottle is closed; that of its last reading unless stated")
      .type_name("TEMP");
  c.add_option("--storage", o->storage, "the warmest that bottles are kept; 25C ± 5C unless stated")
      .type_name("TEMP");
  c.add_option("--headspace", o->headspace, "share of a bottle without drink; 4% unless stated")
      .type_name("4%");
  c.add_option("--expected", o->expected, "where it should end").type_name("1.004");
  auto carbonation =
      c.add_option("--carbonation", o->carbonation, "wanted: prints the table sugar that it takes")
          .type_name("5g/L");
  c.add_option("--volume", o->volume, "of drink to be primed; that of the batch unless stated")
      .type_name("5L")
      .needs(carbonation);
  c.add_option("--rating", o->rating, "what the maker of the bottle rates it for")
      .type_name("6bar");
  c.footer(
      "Examples:\n  areo bottle PT-1 --storage 25C --rating 6bar\n"
      "  areo bottle PT-1 --bottle A --expected 1.004 --carbonation 5g/L");
  c.callback([=, &session, &run] { run = [=, &session] { return run_bottle(*o, session); }; });
}

}  // namespace areo::cli
