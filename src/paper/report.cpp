// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/paper/report.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/core/version.hpp"
#include "areo/document/chart.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/trend/stated_end.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/strength.hpp"
#include "report_charts.hpp"
#include "report_parts.hpp"
#include "text/json_dump.hpp"

namespace areo::paper {

const batch::Point* BottleHistory::last_strength() const {
  for (std::size_t i = history.points.size(); i-- > 0;)
    if (history.points[i].has_strength() && !history.is_odd(i)) return &history.points[i];
  return nullptr;
}

ReportData material_of(const notebook::Notebook& book, batch::Batch& batch,
                       const std::string& bottle, const std::optional<double>& expected,
                       const std::optional<wording::Limit>& limit, bool full) {
  ReportData m{&book, &batch, {}, {}, expected, limit, full};
  std::vector<std::string> bottles = batch.bottles();
  if (!bottle.empty() || bottles.empty()) {
    batch::require_bottle(batch, bottle);
    bottles = {bottle};
  }
  std::optional<Error> first;
  for (const std::string& name : bottles) try {
      BottleHistory a{name, trend::history_of(batch, name)};
      a.corrections = wording::note_corrections(batch, a.history.points);
      if (limit) a.passing = trend::passing_of(batch, a.history, limit->percent_vol, limit->level);
      m.accounts.push_back(std::move(a));
    } catch (const Error& e) {
      if (!first) first = e;
      m.silent.emplace_back(e.what());
    }
  if (m.accounts.empty()) throw Error{*first};
  // What was read of the whole before bottles were filled is part of each bottle's account.
  const auto holds = [](const BottleHistory& filled, const BottleHistory& whole) {
    const auto& points = filled.history.points;
    return !filled.bottle.empty() &&
           std::count_if(points.begin(), points.end(), [](const batch::Point& p) {
             return p.sample.bottle().empty();
           }) == static_cast<std::ptrdiff_t>(whole.history.points.size());
  };
  const auto shown_with_bottles = [&](const BottleHistory& a) {
    return a.bottle.empty() && (a.last_strength() == nullptr ||
                                std::any_of(m.accounts.begin(), m.accounts.end(),
                                            [&](const BottleHistory& b) { return holds(b, a); }));
  };
  if (m.accounts.size() > 1)
    if (const auto whole = std::find_if(m.accounts.begin(), m.accounts.end(), shown_with_bottles);
        whole != m.accounts.end())
      m.accounts.erase(whole);
  for (const BottleHistory& a : m.accounts)
    trend::require_possible_end(batch, a.bottle, a.history, expected);
  return m;
}

bool concerns(const notebook::AdditionRecord& r, const BottleHistory& a) {
  return r.excluded().empty() && (r.bottle.empty() || r.bottle == a.bottle);
}

std::string title_of(const BottleHistory& a) {
  return a.bottle.empty() ? "The batch" : "Bottle " + a.bottle;
}

void write_headline(document::Document& d, const ReportData& m, bool with_state) {
  for (const BottleHistory& a : m.accounts) {
    const batch::Point* last = a.last_strength();
    std::string strength = m.batch->original(a.bottle, notebook::end_of_time).readings.empty()
                               ? "no strength: no original gravity"
                               : "no strength yet";
    if (last != nullptr)
      strength = wording::strength_alone_text(*last, m.full) +
                 (last->drink->state == measurement::Fermentation::measured && !last->lifted
                      ? " (about 95 %)"
                      : "");
    std::vector<std::string> below;
    if (last != nullptr) below.push_back("on " + wording::when_text(last->sample.at()));
    if (with_state) {
      below.push_back("state: " + wording::state_text(a.history, m.expected));
      if (a.passing) below.push_back(wording::limit_text(*m.batch, a.history, *a.passing));
    }
    d.add(
        document::Headline{{(m.accounts.size() > 1 ? title_of(a) + ": " : "") + strength}, below});
  }
}

void write_cautions(document::Document& d) {
  d.add(document::Caution{
      "A home estimate is not a legal strength: local law and an accredited laboratory decide. A "
      "live "
      "ferment is not free of alcohol on the strength of a density reading, and strength rises "
      "after bottling."});
  d.add(document::Caution{wording::pressure_caution});
}

std::string report_title(const notebook::BatchRecord& r) {
  return r.drink.empty() ? r.name : fmt::format("{}: {}", r.name, r.drink);
}

namespace {

// With what both reports begin and end with.
document::Document around(const ReportData& m, Moment made_on,
                          void (*write)(document::Document&, const ReportData&)) {
  document::Document d{report_title(m.batch->record())};
  d.add(document::Paragraph{
      text::sentence(wording::facts_text(m.batch->record()))});  // its name is the title
  write(d, m);
  d.footer.push_back(fmt::format("Made on {} with areo {} (tables {}) from readings in a notebook.",
                                 made_on.date(), version, tables_digest));
  return d;
}

}  // namespace

document::Document full_report(const ReportData& m, Moment made_on) {
  return around(m, made_on, write_full);
}

document::Document audience_report(const ReportData& m, Moment made_on) {
  return around(m, made_on, write_audience);
}

std::string gravity_picture(const ReportData& m) {
  if (m.accounts.size() > 1)
    throw Error{
        Errc::inconsistent,
        fmt::format("{} has several bottles, and a picture shows one", m.batch->record().name),
        "say --bottle NAME"};
  return document::svg_of(gravity_chart(m, m.accounts[0]));
}

std::optional<double> glass_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  constexpr double most_l = 2;
  const double litres = text::litres_from_text(text);
  if (!(litres > 0 && litres <= most_l))
    throw ParseError{fmt::format("a glass holds up to {:g} L", most_l), text, 0, text.size(),
                     "e.g. 150mL"};
  return litres;
}

std::string report_json(const notebook::BatchRecord& batch, const std::string& page,
                        const std::string& plot) {
  return text::dump(
      {{"report", batch.name}, {"page", text::text_json(page)}, {"plot", text::text_json(plot)}});
}

}  // namespace areo::paper
