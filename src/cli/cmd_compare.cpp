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
#include "compare_words.hpp"
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

double within_from_text(const std::string& text) {
  if (text.empty()) return usual_within;
  const TypedNumber n = number_with_unit(text, "a difference");
  if (!(n.value > 0) || (!n.unit.empty() && n.unit != "%vol"))
    throw ParseError{"a difference in strength is above zero, in % vol", text, 0, text.size(),
                     "write 0.5 or 0.5%vol"};
  return n.value;
}

const char* word(Verdict v) {
  switch (v) {
    case Verdict::different: return "different";
    case Verdict::same: return "same";
    case Verdict::cannot_tell: break;
  }
  return "cannot_tell";
}

void print_json(Batch& batch, const std::vector<Point>& points,
                const std::vector<BottlePair>& pairs, double within) {
  for (const Point& p : points) raw_line(point_json(batch, p));
  for (const BottlePair& p : pairs) {
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
  const std::vector<Point> points = last_of_each_bottle(batch);
  if (points.size() < 2)
    throw Error{Errc::inconsistent,
                fmt::format("{} has {} with a strength", batch.record().name,
                            points.empty() ? "no bottle" : "one bottle only"),
                "note readings with --bottle NAME, and an original gravity of the batch"};
  const std::vector<BottlePair> pairs = pairs_of(points, within);
  if (session.json) {
    print_json(batch, points, pairs, within);
    return done;
  }
  line(batch_text(batch.record()));
  for (const std::string& text : report::aligned(bottle_rows(points, session.full)))
    line("  " + text);
  for (const std::string& text : comparison_lines(pairs, within)) line(text);
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
