#include "compare_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/measurement/difference.hpp"
#include "areo/report/text.hpp"
#include "batch_text.hpp"
#include "strength.hpp"

namespace areo::cli {

using batch::Batch;
using batch::Point;
using trend::Verdict;

namespace {

// The strength has a figure that can be compared: no bound, no contradiction.
bool has_figure(const Point& p) {
  return p.computed() && p.drink &&
         (p.drink->state == measurement::Fermentation::measured ||
          p.drink->state == measurement::Fermentation::no_change);
}

std::string title(const Point& p) {
  return p.sample.bottle().empty() ? "the batch" : p.sample.bottle();
}

std::string pair_text(const BottlePair& p, double within) {
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

// What stood between the readings of two bottles may be time.
std::vector<std::string> notes_on_time(const std::vector<BottlePair>& pairs) {
  const auto longest = std::max_element(
      pairs.begin(), pairs.end(),
      [](const BottlePair& a, const BottlePair& b) { return a.apart_s() < b.apart_s(); });
  constexpr std::int64_t half_a_day_s = 43200;
  if (longest->apart_s() < half_a_day_s) return {};
  return {fmt::format("{} and {} were read {} apart: what differs may be time", title(*longest->a),
                      title(*longest->b), duration_text(longest->apart_s()))};
}

}  // namespace

std::vector<Point> last_of_each_bottle(Batch& batch) {
  std::vector<Point> all;
  for (const std::string& bottle : batch.bottles()) {
    const auto& samples = batch.samples();
    const auto last = std::find_if(samples.rbegin(), samples.rend(), [&](const batch::Sample& s) {
      return s.bottle() == bottle && has_figure(batch.point(s));
    });
    if (last != samples.rend()) all.push_back(batch.point(*last));
  }
  return all;
}

std::vector<BottlePair> pairs_of(const std::vector<Point>& points, double within) {
  std::vector<BottlePair> all;
  for (std::size_t i = 0; i < points.size(); ++i)
    for (std::size_t j = i + 1; j < points.size(); ++j) {
      const auto d = measurement::difference(points[i].result(), points[j].result(), strength_key);
      all.push_back({&points[i], &points[j], trend::compare(d, within)});
    }
  return all;
}

std::vector<std::vector<std::string>> bottle_rows(const std::vector<Point>& points, bool full) {
  std::vector<std::vector<std::string>> rows{{"bottle", "no.", "when", "gravity 20/20", "alcohol"}};
  for (const Point& p : points)
    rows.push_back({title(p), numbers(p.sample), when_text(p.sample.at()),
                    report::value_text(p.gravity().value, "", full), strength_text(p, full)});
  return rows;
}

std::vector<std::string> comparison_lines(const std::vector<BottlePair>& pairs, double within) {
  std::vector<std::string> all;
  if (pairs.empty()) return all;
  for (const BottlePair& p : pairs) all.push_back(pair_text(p, within));
  all.emplace_back(
      "what the readings share, the scale, the glass and the original gravity, is left out");
  if (pairs.size() > 1)
    all.emplace_back("of 20 pairs of equal bottles one is called different all the same");
  for (const std::string& note : notes_on_time(pairs)) all.push_back("note: " + note);
  return all;
}

}  // namespace areo::cli
