// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/compare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "areo/analysis/difference.hpp"
#include "areo/analysis/rounding.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/trend/history.hpp"
#include "areo/trend/whole_divisions.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/strength.hpp"
#include "areo/wording/trend.hpp"

namespace areo::wording {

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

// One of a bottle, and what is said of odd ones behind it.
struct Figure {
  Point point;
  std::vector<std::string> odd;
};

// The last one of a bottle until then that is not odd; if there is none, the last one.
std::optional<Figure> last_figure(Batch& batch, const std::string& bottle, Moment until) {
  std::optional<trend::History> history;  // once it is asked for
  std::optional<Point> last;
  std::vector<std::string> odd;
  const auto& samples = batch.samples();
  for (std::size_t i = samples.size(); i-- > 0;) {
    const batch::Sample& s = samples[i];
    if (s.bottle() != bottle || until < s.at()) continue;
    Point point = batch.point(s);
    if (!has_figure(point)) continue;
    if (!history) history = trend::history_of(batch, bottle);
    const auto found =
        std::find_if(history->odd.begin(), history->odd.end(), [&](const trend::Outlier& o) {
          return history->points[o.point].sample.first().id == s.first().id;
        });
    if (found == history->odd.end()) return Figure{std::move(point), std::move(odd)};
    odd.push_back(odd_text(*history, *found));
    if (!last) last = std::move(point);
  }
  if (!last) return std::nullopt;
  return Figure{std::move(*last),
                {odd.front(), "no other reading is there to be compared in its place"}};
}

// Bubbles may hide a part of its strength.
bool hides(const ComparedReading& c) { return c.point.lifted; }

// Of one that is stronger than it seems nothing is decided that this would change.
trend::Comparison without_bubbles(trend::Comparison c, const ComparedReading& a,
                                  const ComparedReading& b) {
  const ComparedReading& weaker = c.difference.estimate > 0 ? a : b;
  if (c.verdict == Verdict::different ? hides(weaker) : hides(a) || hides(b))
    c.verdict = Verdict::not_told_apart;
  return c;
}

std::string pair_text(const ComparedPair& p, const std::optional<double>& within) {
  const std::string by = stronger_text(p);
  const std::string who = fmt::format("{} and {}: ", p.a->title, p.b->title);
  switch (p.c.verdict) {
    case Verdict::different: return who + "DIFFERENT, " + by;
    case Verdict::same: return fmt::format("{}SAME within {:g} % vol; {}", who, *within, by);
    case Verdict::not_told_apart: break;
  }
  return fmt::format(
      "{}NOT TOLD APART: {}; {}", who, by,
      hides(*p.a) || hides(*p.b)
          ? "what was not degassed is stronger than it seems"
          : fmt::format("from {} on these readings would show it",
                        text::rounded_up(p.c.detectable, text::last_place(p.c.detectable))));
}

const char* word(Verdict v) {
  switch (v) {
    case Verdict::different: return "different";
    case Verdict::same: return "same";
    case Verdict::not_told_apart: break;
  }
  return "not told apart";
}

// Judged by all that was read in them, as more readings tell more of who reads.
bool all_in_whole_divisions(std::span<Batch* const> batches) {
  std::vector<trend::Noted> noted;
  for (Batch* batch : batches) {
    const std::vector<trend::Noted> more = trend::noted_of(*batch);
    noted.insert(noted.end(), more.begin(), more.end());
  }
  return trend::in_whole_divisions(noted);
}

bool of_two_batches(const ComparedPair& p) { return p.a->batch != p.b->batch; }

}  // namespace

std::vector<ComparedReading> bottles_of(Batch& batch) {
  std::vector<ComparedReading> all;
  for (const std::string& bottle : batch.bottles())
    if (auto last = last_figure(batch, bottle, notebook::end_of_time))
      all.push_back({bottle.empty() ? "the batch" : bottle, bottle, batch.record().name,
                     std::move(last->point), std::move(last->odd)});
  // What was read before bottles were filled is no bottle.
  const auto is_older = [&](const ComparedReading& whole) {
    return whole.key.empty() && std::all_of(all.begin(), all.end(), [&](const ComparedReading& c) {
             return c.key.empty() || whole.point.sample.at() < c.point.sample.at();
           });
  };
  const auto older = std::find_if(all.begin(), all.end(), is_older);
  if (all.size() > 2 && older != all.end()) all.erase(older);
  return all;
}

std::vector<ComparedReading> named_after_batch(Batch& batch) {
  std::vector<ComparedReading> all = bottles_of(batch);
  for (ComparedReading& c : all) {
    const std::string& bottle = c.point.sample.bottle();
    c.title = c.key = bottle.empty() ? c.batch : fmt::format("{} {}", c.batch, bottle);
  }
  return all;
}

std::vector<ComparedReading> days_of(Batch& batch, const std::string& bottle,
                                     const std::vector<std::string>& days) {
  std::vector<ComparedReading> all;
  for (const std::string& day : days) {
    auto last = last_figure(batch, bottle, past_day_end_from_text(day, now()));
    if (!last)
      throw Error{
          Errc::inconsistent,
          fmt::format("{} has no reading with a strength until {}", batch.record().name, day),
          fmt::format("areo trend {} lists them", shell_word(batch.record().name))};
    const Point& point = last->point;
    const std::string at = when_text(point.sample.at());
    for (const ComparedReading& c : all)
      if (c.point.sample.first().id == point.sample.first().id)
        throw Error{
            Errc::inconsistent,
            fmt::format("two of these days come to the same reading, of {}", at),
            fmt::format("areo trend {} lists what was read when", shell_word(batch.record().name))};
    all.push_back({at, point.sample.at().text(), batch.record().name, std::move(last->point),
                   std::move(last->odd)});
  }
  return all;
}

std::vector<ComparedReading> compared_of(std::span<Batch* const> batches, const std::string& bottle,
                                         const std::vector<std::string>& days) {
  std::vector<ComparedReading> all;
  if (!days.empty()) {
    batch::require_bottle(*batches.front(), bottle);
    all = days_of(*batches.front(), bottle, days);
  } else if (batches.size() == 1) {
    all = bottles_of(*batches.front());
  } else {
    for (Batch* batch : batches) {
      const std::string& name = batch->record().name;
      auto more = named_after_batch(*batch);
      if (more.empty())
        throw Error{Errc::inconsistent, fmt::format("{} has no reading with a strength", name),
                    fmt::format("areo batch show {} says why", shell_word(name))};
      std::move(more.begin(), more.end(), std::back_inserter(all));
    }
  }
  if (all.size() < 2)
    throw Error{Errc::inconsistent,
                fmt::format("{} has {} with a strength", batches.front()->record().name,
                            all.empty() ? "no bottle" : "one bottle only"),
                "note readings with --bottle NAME, and an original gravity of the batch"};
  return all;
}

std::optional<double> within_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const text::TypedNumber n = text::number_with_unit(text, "a difference");
  if (!(n.value > 0) || (!n.unit.empty() && n.unit != "%vol"))
    throw ParseError{"a difference in strength is above zero, in % vol", text, 0, text.size(),
                     "write 0.5 or 0.5%vol"};
  return n.value;
}

std::vector<ComparedPair> pairs_of(const std::vector<ComparedReading>& all,
                                   std::span<Batch* const> batches,
                                   const std::optional<double>& within) {
  using analysis::Common;
  const bool rounded = all_in_whole_divisions(batches);
  std::vector<measurement::Result> results;
  results.reserve(all.size());
  for (const ComparedReading& c : all)
    results.push_back(rounded ? analysis::with_rounding(c.point.result()) : c.point.result());
  std::vector<ComparedPair> pairs;
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const Common common = all[i].batch == all[j].batch ? Common::ferment : Common::instruments;
      const auto d = analysis::difference(results[i], results[j], strength_key, common);
      pairs.push_back(
          {&all[i], &all[j], without_bubbles(trend::compare(d, within), all[i], all[j])});
    }
  return pairs;
}

std::vector<std::string> notes_on_rounding(std::span<Batch* const> batches) {
  if (!all_in_whole_divisions(batches)) return {};
  return {
      "everything was read in whole divisions: their rounding counts where these are compared; "
      "who reads halves of one tells more apart"};
}

std::vector<std::string> notes_on_odd(const std::vector<ComparedReading>& all) {
  std::vector<std::string> notes;
  for (const ComparedReading& c : all)
    for (const std::string& text : c.odd)
      if (std::find(notes.begin(), notes.end(), text) == notes.end()) notes.push_back(text);
  return notes;
}

std::string stronger_text(const ComparedPair& p) {
  const auto& d = p.c.difference;
  return fmt::format("{} is stronger by {}", (d.estimate > 0 ? p.b : p.a)->title,
                     text::value_text({std::abs(d.estimate), d.u, d.degrees_of_freedom}, "% vol"));
}

std::vector<std::vector<std::string>> compared_rows(const std::vector<ComparedReading>& all,
                                                    const std::string& what, bool full) {
  std::vector<std::vector<std::string>> rows{{what, "no.", "when", "gravity 20/20", strength_head}};
  for (const ComparedReading& c : all)
    rows.push_back({c.title, numbers_cell(c.point.sample), when_text(c.point.sample.at()),
                    text::value_text(c.point.gravity().value, "", full),
                    strength_cell_text(c.point, full)});
  return rows;
}

std::vector<std::vector<std::string>> comparison_matrix(const std::vector<ComparedReading>& all,
                                                        const std::vector<ComparedPair>& pairs) {
  if (all.size() < 3) return {};
  std::vector<std::vector<std::string>> rows(all.size() + 1,
                                             std::vector<std::string>(all.size() + 1));
  for (std::size_t i = 0; i < all.size(); ++i) rows[0][i + 1] = rows[i + 1][0] = all[i].title;
  for (const ComparedPair& p : pairs) {
    const auto a = static_cast<std::size_t>(p.a - all.data()) + 1;
    const auto b = static_cast<std::size_t>(p.b - all.data()) + 1;
    rows[a][b] = rows[b][a] = word(p.c.verdict);
  }
  return rows;
}

std::vector<std::string> comparison_lines(const std::vector<ComparedPair>& pairs,
                                          const std::optional<double>& within) {
  std::vector<std::string> all;
  if (pairs.empty()) return all;
  for (const ComparedPair& p : pairs) all.push_back(pair_text(p, within));
  if (!std::all_of(pairs.begin(), pairs.end(), of_two_batches))
    all.emplace_back(
        "what the readings share, the scale, the glass and the original gravity, is left out");
  if (std::any_of(pairs.begin(), pairs.end(), of_two_batches))
    all.emplace_back(
        "of two batches only the instruments' errors are left out; each has its own original "
        "gravity, and its own error of the method");
  if (pairs.size() > 1)
    all.emplace_back("of 20 pairs of equal drinks one is called different all the same");
  return all;
}

std::vector<std::string> notes_on_additions(const Batch& batch,
                                            const std::vector<ComparedReading>& days) {
  for (const ComparedReading& a : days)
    for (const ComparedReading& b : days)
      if (a.point.sample.at() < b.point.sample.at() &&
          batch.added_between(a.point.sample, b.point.sample))
        return {fmt::format("something was added between {} and {}: what differs may be that",
                            a.title, b.title)};
  return {};
}

std::vector<std::string> notes_on_time(const std::vector<ComparedPair>& pairs) {
  const auto longest = std::max_element(
      pairs.begin(), pairs.end(),
      [](const ComparedPair& a, const ComparedPair& b) { return a.apart_s() < b.apart_s(); });
  constexpr std::int64_t half_a_day_s = 43200;
  if (longest == pairs.end() || longest->apart_s() < half_a_day_s) return {};
  return {fmt::format("{} and {} were read {} apart{}: what differs may be time", longest->a->title,
                      longest->b->title, duration_text(longest->apart_s()),
                      pairs.size() > 1 ? ", others no further" : "")};
}

std::vector<std::string> bases_lines(std::span<Batch* const> batches) {
  std::vector<std::string> all;
  for (const Batch* batch : batches) {
    const std::string basis = basis_text(batch->record().culture);
    if (std::find(all.begin(), all.end(), basis) == all.end()) all.push_back(basis);
  }
  all.back() = basis_line(all.back());
  return all;
}

}  // namespace areo::wording
