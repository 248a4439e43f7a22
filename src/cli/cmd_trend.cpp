// areo trend: what a ferment did, what it does, and where it leads.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/report/json.hpp"
#include "areo/report/plot.hpp"
#include "areo/report/text.hpp"
#include "areo/trend/history.hpp"
#include "batch_text.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "strength.hpp"
#include "trend_text.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using trend::Course;
using trend::Fall;
using trend::History;
using trend::Phase;

struct Options {
  std::string name, bottle, expected;
  bool plot = false;
};

constexpr double day_s = 86400;

std::string gravity_text(double gravity, double expanded) {
  return report::fixed(gravity, report::supported_decimals(expanded));
}

Moment moment_of(const History& h, double day) {
  return {h.zero.seconds + std::llround(day * day_s), h.zero.offset_s};
}

std::string days_text(double days) { return duration_text(std::llround(days * day_s)); }

// --- for people ---

std::string fall_text(const Fall& f) {
  return report::value_text({std::abs(f.value.estimate), f.value.u, f.value.degrees_of_freedom},
                            "");
}

std::string per_day_text(const Fall& f) {
  return report::value_text({f.value.estimate / f.days, f.value.u / f.days}, "");
}

// "no fall larger than 0.0009 in 3.0 days; 4 readings"
std::string none_text(const Fall& f) {
  return fmt::format("no fall larger than {} in {}; {} readings",
                     gravity_text(std::max(f.bound(), 0.0), f.value.expanded()), days_text(f.days),
                     f.points);
}

std::string state_text(const History& h, const std::optional<double>& expected) {
  const trend::State& s = h.state;
  switch (s.phase) {
    case Phase::lag:
      return fmt::format("LAG, {}", none_text({s.whole->days, s.whole->value, h.series.size()}));
    case Phase::active:
      return fmt::format("ACTIVE, down {} in {}", fall_text(*s.recent), days_text(s.recent->days));
    case Phase::slowing:
      return fmt::format("SLOWING, {} a day after {} at its fastest", per_day_text(*s.recent),
                         per_day_text(*s.fastest));
    case Phase::steady:
      if (is_stuck(h, expected))
        return fmt::format("STUCK above the expected {}, {}", report::fixed(*expected, 3),
                           none_text(*s.steady));
      return "STEADY, " + none_text(*s.steady);
    case Phase::unclear: break;
  }
  return h.series.size() < 2 ? "CANNOT TELL from one reading"
                             : "CANNOT TELL, the last step is too short or too small";
}

std::string next_text(const History& h, const std::optional<double>& expected,
                      const std::string& name) {
  if (is_stuck(h, expected)) return "find out why before a bottle is closed; then read again";
  if (h.state.phase == Phase::steady)
    return expected ? "read once more before a bottle is closed"
                    : fmt::format(
                          "is this its end? areo trend {} --expected SG says whether it is "
                          "stuck above it",
                          name);
  return "read again in a day";
}

std::string cell(const Point& p, const char* key, const char* unit, bool full) {
  if (!p.drink || p.drink->state != measurement::Fermentation::measured) return "";
  return report::value_text(p.drink->result.at(key).value, unit, full);
}

void print_points(const History& h, bool full) {
  std::vector<std::vector<std::string>> rows{
      {"no.", "when", "gravity 20/20", "a day", "alcohol", "real extract", "real attenuation"}};
  for (std::size_t i = 0; i < h.points.size(); ++i) {
    const Point& p = h.points[i];
    const auto& fall = h.per_day[i];
    rows.push_back(
        {numbers(p.sample), when_text(p.sample.at()),
         p.computed() ? report::value_text(p.gravity().value, "", full) : "",
         fall ? report::value_text({-fall->estimate, fall->u, fall->degrees_of_freedom}, "", full)
              : "",
         strength_text(p, full), cell(p, "real_extract_percent", "% mass", full),
         cell(p, "real_attenuation_percent", "%", full)});
  }
  for (const std::string& text : report::aligned(rows)) line("  " + text);
}

// The readings since the last addition, and the curve through them.
void print_plot(const History& h) {
  report::Plot plot;
  for (std::size_t i = 0; i < h.series.size(); ++i)
    plot.points.push_back({h.series.days[i], h.series.gravity[i], h.series.value(i).expanded()});
  if (plot.points.empty()) return;
  if (const auto& c = h.outlook.course) plot.curve = [&c](double day) { return c->gravity(day); };
  plot.x_label = [&h](double day) { return moment_of(h, day).date(); };
  plot.y_label = [](double gravity) { return report::fixed(gravity, 3); };
  for (const std::string& text : report::text_plot(plot)) line("  " + text);
  line(fmt::format("  o reading, | its uncertainty{}",
                   plot.curve ? ", . curve of the outlook" : ""));
}

void print_outlook(const History& h, bool full) {
  if (!h.outlook.course) {
    const auto& r = h.outlook.refused;
    line(fmt::format("outlook: none; {}{}", r.why,
                     r.more == 0   ? ""
                     : r.more == 1 ? "; 1 more reading would do"
                                   : fmt::format("; about {} more readings would do", r.more)));
    return;
  }
  const Course& c = *h.outlook.course;
  line(fmt::format("outlook: ends at {}, within {} of it from {} on ({} to {}); each {:g} % likely",
                   report::interval_text(c.final, c.final_interval, "", full),
                   gravity_text(c.near, c.near), moment_of(h, c.end_day).date(),
                   moment_of(h, c.end_interval.lo).date(), moment_of(h, c.end_interval.hi).date(),
                   100 * c.level));
  line(
      fmt::format("  {} curve; lag {}, fastest {} with {:.4f} a day",
                  c.form == trend::Form::logistic ? "logistic" : "Gompertz",
                  c.lag_day() > 0 ? "until " + when_text(moment_of(h, c.lag_day())) : "over before",
                  when_text(moment_of(h, c.steepest_day())), c.steepest_fall()));
  if (c.widened > 1)
    line(
        fmt::format("  the readings scatter {:.1f} times as much as they should: intervals are "
                    "wider for it",
                    c.widened));
}

void print_odd(const History& h) {
  for (const trend::Oddity& o : h.odd)
    line(
        fmt::format("note: reading {} lies {} {} the others: {}? it counts until you say: "
                    "areo reading exclude {} --reason TEXT",
                    numbers(h.points[o.point].sample), report::fixed(std::abs(o.off), 4),
                    o.off > 0 ? "above" : "below", o.likely, h.points[o.point].sample.first().id));
}

// --- for programs ---

std::string fall_json(const std::optional<Fall>& f) {
  if (!f) return "null";
  return fmt::format(
      R"({{"days":{},"fall":{},"standard_uncertainty":{},"expanded_uncertainty":{},"points":{}}})",
      f->days, f->value.estimate, f->value.u, f->value.expanded(), f->points);
}

std::string outlook_json(const History& h) {
  if (!h.outlook.course)
    return fmt::format(R"({{"refused":{},"more_readings":{}}})",
                       report::json_string(h.outlook.refused.why), h.outlook.refused.more);
  const Course& c = *h.outlook.course;
  return fmt::format(
      R"({{"form":"{}","level":{},"final_sg_20_20":{},"final_lo":{},"final_hi":{},"near":{},)"
      R"("end_at":"{}","end_lo":"{}","end_hi":"{}","start_sg_20_20":{},"lag_until":"{}",)"
      R"("steepest_at":"{}","steepest_fall_per_day":{},"aicc":{},"aicc_of_other":{},)"
      R"("chi_squared":{},"degrees_of_freedom":{},"widened":{}}})",
      c.form == trend::Form::logistic ? "logistic" : "gompertz", c.level, c.final,
      c.final_interval.lo, c.final_interval.hi, c.near, moment_of(h, c.end_day).text(),
      moment_of(h, c.end_interval.lo).text(), moment_of(h, c.end_interval.hi).text(), c.start,
      moment_of(h, c.lag_day()).text(), moment_of(h, c.steepest_day()).text(), c.steepest_fall(),
      c.aicc, c.aicc_of_other ? fmt::format("{}", *c.aicc_of_other) : "null", c.chi_squared,
      c.degrees_of_freedom, c.widened);
}

std::string odd_json(const History& h) {
  std::string out;
  for (const trend::Oddity& o : h.odd)
    out += fmt::format(R"({}{{"readings":[{}],"off":{},"likely":{}}})", out.empty() ? "" : ",",
                       numbers(h.points[o.point].sample), o.off, report::json_string(o.likely));
  return "[" + out + "]";
}

void print_json(Batch& batch, const History& h, const Options& o,
                const std::optional<double>& expected) {
  for (const Point& p : h.points) raw_line(point_json(batch, p));
  raw_line(fmt::format(R"({{"trend":{},"bottle":{},"state":"{}","since":"{}","whole":{},)"
                       R"("recent":{},"fastest":{},"steady":{},"outlook":{},"odd":{}}})",
                       report::json_string(batch.record().name), report::json_string(o.bottle),
                       is_stuck(h, expected) ? "stuck" : word(h.state.phase), h.zero.text(),
                       fall_json(h.state.whole), fall_json(h.state.recent),
                       fall_json(h.state.fastest), fall_json(h.state.steady), outlook_json(h),
                       odd_json(h)));
}

int run_trend(const Options& o, const Session& session) {
  refuse_together(session.json, "--json", o.plot, "--plot",
                  "a program draws its own: leave --plot out");
  const auto expected = expected_from_text(o.expected);
  const notebook::Notebook book{notebook_path(session), notebook::Open::read};
  Batch batch{book, o.name};
  require_bottle(batch, o.bottle);
  const History h = trend::history_of(batch, o.bottle);
  if (session.json) {
    print_json(batch, h, o, expected);
    return done;
  }
  line(batch_text(batch.record()) + (o.bottle.empty() ? "" : "; bottle " + o.bottle));
  print_points(h, session.full);
  if (h.since > 0)
    line("  since the last addition " + (h.series.size() == 0
                                             ? std::string{"nothing could be computed"}
                                             : fmt::format("{} of them count", h.series.size())));
  if (o.plot) print_plot(h);
  line("state: " + state_text(h, expected));
  print_outlook(h, session.full);
  print_odd(h);
  notes(notes_of(h.points));
  print_basis(basis_text(batch.record().culture));
  if (h.state.phase == Phase::steady)
    line(
        "steady is no promise: what sugar is left can still make pressure in a closed bottle; "
        "its maker's rating rules");
  line("next: " + next_text(h, expected, batch.record().name));
  return done;
}

}  // namespace

void setup_trend(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("trend", "what a ferment did, what it does, and where it leads");
  c.add_option("name", o->name, "the batch").required();
  c.add_option("--bottle", o->bottle, "of which bottle; the batch as a whole unless stated")
      .type_name("NAME");
  c.add_option("--expected", o->expected, "where it should end: steady above it is stuck")
      .type_name("1.008");
  c.add_flag("--plot", o->plot, "the readings and the curve, drawn in characters");
  c.footer("Examples:\n  areo trend PT-1 --plot\n  areo trend PT-1 --bottle A --expected 1.004");
  c.callback([=, &session, &run] { run = [=, &session] { return run_trend(*o, session); }; });
}

}  // namespace areo::cli
