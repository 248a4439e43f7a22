// areo compare: are the bottles of a batch really different?
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/measurement/difference.hpp"
#include "areo/report/json.hpp"
#include "areo/report/text.hpp"
#include "areo/trend/compare.hpp"
#include "batch_text.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "strength.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using trend::Verdict;

struct Options {
  std::string name, within;
};

// So near counts as the same, % vol: the tolerance of the label of a beer up to 5.5 % vol,
// Regulation (EU) 1169/2011 Annex XII. A judgement for other drinks.
constexpr double usual_within = 0.5;

double within_from_text(const std::string& text) {
  if (text.empty()) return usual_within;
  const TypedNumber n = number_with_unit(text, "a difference");
  if (!(n.value > 0) || (!n.unit.empty() && n.unit != "%vol"))
    throw ParseError{"a difference in strength is above zero, in % vol", text, 0, text.size(),
                     "write 0.5 or 0.5%vol"};
  return n.value;
}

// The strength has a figure that can be compared: no bound, no contradiction.
bool has_strength(const Point& p) {
  return p.computed() && p.drink &&
         (p.drink->state == measurement::Fermentation::measured ||
          p.drink->state == measurement::Fermentation::no_change);
}

// The last reading of each bottle that has a strength, by name; "" is the batch as a whole.
std::vector<Point> last_of_each(Batch& batch) {
  std::vector<Point> all;
  for (const std::string& bottle : batch.bottles()) {
    const auto& samples = batch.samples();
    const auto last = std::find_if(samples.rbegin(), samples.rend(), [&](const batch::Sample& s) {
      return s.bottle() == bottle && has_strength(batch.point(s));
    });
    if (last != samples.rend()) all.push_back(batch.point(*last));
  }
  if (all.size() < 2)
    throw Error{Errc::inconsistent,
                fmt::format("{} has {} with a strength", batch.record().name,
                            all.empty() ? "no bottle" : "one bottle only"),
                "note readings with --bottle NAME, and an original gravity of the batch"};
  return all;
}

std::string title(const Point& p) {
  return p.sample.bottle().empty() ? "the batch" : p.sample.bottle();
}

struct Pair {
  const Point *a, *b;
  trend::Comparison c;
  [[nodiscard]] std::int64_t apart_s() const {
    return std::abs(b->sample.at().seconds - a->sample.at().seconds);
  }
};

std::vector<Pair> pairs_of(const std::vector<Point>& points, double within) {
  std::vector<Pair> all;
  for (std::size_t i = 0; i < points.size(); ++i)
    for (std::size_t j = i + 1; j < points.size(); ++j) {
      const auto d = measurement::difference(points[i].result(), points[j].result(), strength_key);
      all.push_back({&points[i], &points[j], trend::compare(d, within)});
    }
  return all;
}

const char* word(Verdict v) {
  switch (v) {
    case Verdict::different: return "different";
    case Verdict::same: return "same";
    case Verdict::cannot_tell: break;
  }
  return "cannot_tell";
}

std::string pair_text(const Pair& p, double within) {
  const auto& d = p.c.difference;
  const std::string by =
      fmt::format("{} is stronger by {}", title(d.estimate > 0 ? *p.b : *p.a),
                  report::value_text({std::abs(d.estimate), d.u, d.degrees_of_freedom}, "% vol"));
  const std::string who = fmt::format("{} and {}: ", title(*p.a), title(*p.b));
  switch (p.c.verdict) {
    case Verdict::different: return who + "DIFFERENT, " + by;
    case Verdict::same: return fmt::format("{}SAME within {:g} % vol; {}", who, within, by);
    case Verdict::cannot_tell: break;
  }
  return fmt::format("{}CANNOT TELL, {}; these readings would show {} % vol", who, by,
                     report::fixed(p.c.detectable, report::last_place(p.c.detectable)));
}

void print_points(const std::vector<Point>& points, bool full) {
  std::vector<std::vector<std::string>> rows{{"bottle", "no.", "when", "gravity 20/20", "alcohol"}};
  for (const Point& p : points)
    rows.push_back({title(p), numbers(p.sample), when_text(p.sample.at()),
                    report::value_text(p.gravity().value, "", full), strength_text(p, full)});
  for (const std::string& text : report::aligned(rows)) line("  " + text);
}

// What stood between the readings of two bottles may be time.
void note_time(const std::vector<Pair>& pairs) {
  const auto longest =
      std::max_element(pairs.begin(), pairs.end(),
                       [](const Pair& a, const Pair& b) { return a.apart_s() < b.apart_s(); });
  constexpr std::int64_t half_a_day_s = 43200;
  if (longest->apart_s() >= half_a_day_s)
    line(fmt::format("note: {} and {} were read {} apart: what differs may be time",
                     title(*longest->a), title(*longest->b), duration_text(longest->apart_s())));
}

void print_json(Batch& batch, const std::vector<Point>& points, const std::vector<Pair>& pairs,
                double within) {
  for (const Point& p : points) raw_line(point_json(batch, p));
  for (const Pair& p : pairs) {
    const auto& d = p.c.difference;
    raw_line(fmt::format(
        R"({{"compare":[{},{}],"verdict":"{}","difference_percent_vol":{},)"
        R"("standard_uncertainty":{},"expanded_uncertainty":{},"within_percent_vol":{},)"
        R"("detectable_percent_vol":{},"apart_s":{}}})",
        report::json_string(p.a->sample.bottle()), report::json_string(p.b->sample.bottle()),
        word(p.c.verdict), d.estimate, d.u, d.expanded(), within, p.c.detectable, p.apart_s()));
  }
}

int run_compare(const Options& o, const Session& session) {
  const double within = within_from_text(o.within);
  const notebook::Notebook book{notebook_path(session), notebook::Open::read};
  Batch batch{book, o.name};
  const std::vector<Point> points = last_of_each(batch);
  const std::vector<Pair> pairs = pairs_of(points, within);
  if (session.json) {
    print_json(batch, points, pairs, within);
    return done;
  }
  line(batch_text(batch.record()));
  print_points(points, session.full);
  for (const Pair& p : pairs) line(pair_text(p, within));
  line("what the readings share, the scale, the glass and the original gravity, is left out");
  if (pairs.size() > 1) line("of 20 pairs of equal bottles one is called different all the same");
  note_time(pairs);
  notes(notes_of(points));
  print_basis(basis_text(batch.record().culture));
  return done;
}

}  // namespace

void setup_compare(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("compare", "are the bottles of a batch really different?");
  c.add_option("name", o->name, "the batch").required();
  c.add_option("--within", o->within, "so near counts as the same; 0.5 % vol unless stated")
      .type_name("0.3");
  c.footer("Example:\n  areo compare PT-1 --within 0.3");
  c.callback([=, &session, &run] { run = [=, &session] { return run_compare(*o, session); }; });
}

}  // namespace areo::cli
