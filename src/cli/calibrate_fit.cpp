// areo calibrate fit, show: from checks to the correction in force.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/changes.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/fit.hpp"
#include "areo/wording/instrument.hpp"
#include "calibrate.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {
namespace {

// What changed since the calibration before.
void print_drift(const notebook::InstrumentRecord& instrument,
                 const notebook::CalibrationRecord& before, const calibration::Drift& drift) {
  for (const std::string& text : wording::drift_lines(instrument, before, drift)) line("  " + text);
}

void print_fit(const wording::Fitted& f) {
  for (const std::string& text : wording::fit_lines(f)) line(text);
}

using notebook::CheckRecord;
using notebook::InstrumentRecord;

// After a year the new checks alone make the new calibration.
std::vector<CheckRecord> made_since(std::vector<CheckRecord> all, const std::string& since,
                                    const std::string& name) {
  if (since.empty()) return all;
  const Moment from = past_moment_from_text(since, now());
  std::erase_if(all, [&](const CheckRecord& c) { return c.made_at < from; });
  if (all.empty())
    throw Error{Errc::domain, fmt::format("{} has no check since {}", name, from.date()),
                fmt::format("areo calibrate show {} lists its checks", shell_word(name))};
  return all;
}

std::vector<CheckRecord> without(std::vector<CheckRecord> all,
                                 const std::vector<notebook::Id>& left_out, const std::string& name,
                                 const std::string& where) {
  for (const notebook::Id id : left_out)
    if (std::none_of(all.begin(), all.end(), [&](const auto& c) { return c.id == id; }))
      throw Error{Errc::domain, fmt::format("{} has no check {}{}", name, id, where),
                  fmt::format("areo calibrate show {} lists its checks", shell_word(name))};
  std::erase_if(all, [&](const CheckRecord& c) {
    return std::find(left_out.begin(), left_out.end(), c.id) != left_out.end();
  });
  return all;
}

// The first of the checks after the longest pause, if that is so long that the instrument may have
// changed in it.
const CheckRecord* after_long_pause(const std::vector<CheckRecord>& checks) {
  constexpr std::int64_t day_s = 86400;
  std::int64_t longest = 60 * day_s;  // judgement: checks of one occasion lie closer together
  const CheckRecord* first = nullptr;
  for (std::size_t i = 1; i < checks.size(); ++i) {
    const std::int64_t pause = checks[i].made_at.seconds - checks[i - 1].made_at.seconds;
    if (pause <= longest) continue;
    longest = pause;
    first = &checks[i];
  }
  return first;
}

// @param members  further ones, each with its comma in front
std::string fit_json(const wording::Fitted& f, const std::optional<Moment>& in_force_from,
                     const std::string& members) {
  const auto& c = f.fit.correction;
  return fmt::format(
      R"({{"instrument":{},"r0":{},"offset":{},"offset_standard_uncertainty":{},"slope":{},)"
      R"("slope_standard_uncertainty":{},"beyond_standard_uncertainty":{},)"
      R"("surface_standard_uncertainty":{},"slope_used":{},"checked_from":{},"checked_to":{},)"
      R"("checks":{},"chi_squared":{},"degrees_of_freedom":{},"consistent":{},"suspect":{},)"
      R"("conformity":{},"tolerance":{},"unit":"{}","in_force_from":{}{},"notes":{}}})",
      text::json_string(f.instrument.name()), c.r0, c.offset, c.u_offset, c.slope, c.u_slope,
      c.u_slope_beyond, std::abs(c.u_surface), f.fit.slope_used, c.checked_lo, c.checked_hi,
      c.checks, f.fit.line.chi_squared, f.fit.line.degrees_of_freedom, f.fit.consistent,
      f.fit.suspect ? std::to_string(f.checks[*f.fit.suspect].id) : "null",
      f.fit.consistent
          ? fmt::format("\"{}\"", wording::conformity_word(calibration::judge(c, f.tolerance)))
          : "null",
      f.tolerance, wording::unit_of(f.instrument), wording::moment_json(in_force_from), members,
      text::json_list(f.remarks));
}

void print_contradiction(const wording::Fitted& f) {
  line("not put in force: the checks contradict each other beyond their uncertainties");
  if (!f.fit.suspect) {
    line("next: repeat both checks; two alone cannot tell which of them is wrong");
    return;
  }
  line(
      fmt::format("next: repeat check {0}; without it the others agree best (areo calibrate fit "
                  "{1} --without {0})",
                  f.checks[*f.fit.suspect].id, shell_word(f.instrument.name())));
}

// The checks that the calibration in force does not rest on.
void print_left_out(const notebook::Notebook& book, const InstrumentRecord& instrument,
                    const std::vector<CheckRecord>& used) {
  for (const CheckRecord& r : book.checks(instrument.id)) {
    if (std::any_of(used.begin(), used.end(), [&](const auto& u) { return u.id == r.id; }))
      continue;
    line("  " +
         wording::check_text(instrument, r,
                             evaluate(book, instrument, std::span{&r, 1}).checks.front()) +
         (used.empty() ? "" : "; not used"));
  }
}

// What a calibration and its reminder say of themselves.
std::string in_force_text(const notebook::CalibrationRecord& c) {
  return fmt::format("in force from {}{}", c.in_force_from.date(),
                     c.due ? ", due for a check on " + c.due->date() : "");
}

void print_in_force(const notebook::CalibrationRecord& c) {
  line(fmt::format("  {}; a user's check, not an accredited calibration", in_force_text(c)));
}

void print_history(const notebook::Notebook& book, const InstrumentRecord& instrument) {
  const notebook::CalibrationRecord* before = nullptr;
  const auto all = book.calibrations(instrument.id);
  for (const auto& c : all) {
    line(fmt::format("  calibration {}: check{} {}, {}{}", c.id, c.checks.size() == 1 ? "" : "s",
                     fmt::join(c.checks, ", "), in_force_text(c),
                     c.note.empty() ? "" : "; " + c.note));
    if (before != nullptr) print_drift(instrument, *before, drift(book, instrument, *before, c));
    before = &c;
  }
}

std::string history_json(const notebook::Notebook& book, const InstrumentRecord& instrument) {
  std::string out;
  const notebook::CalibrationRecord* before = nullptr;
  const auto all = book.calibrations(instrument.id);
  for (const auto& c : all) {
    out += fmt::format(
        R"({}{{"calibration":{},"checks":[{}],"in_force_from":{},"from_stated":{},"due":{},"note":{},"drift":{}}})",
        out.empty() ? "" : ",", c.id, fmt::join(c.checks, ","),
        wording::moment_json(c.in_force_from), c.from_stated, wording::moment_json(c.due),
        text::json_string(c.note),
        before != nullptr ? wording::drift_json(*before, drift(book, instrument, *before, c))
                          : "null");
    before = &c;
  }
  return "[" + out + "]";
}

notebook::CalibrationRecord record_of(const CalibrateOptions& o, const wording::Fitted& f) {
  notebook::CalibrationRecord r;
  r.instrument = f.instrument.id;
  // Unless stated, from the last check on; the first calibration holds for what was read before
  // too.
  r.from_stated = !o.from.empty();
  r.in_force_from = r.from_stated ? past_moment_from_text(o.from, now()) : f.checks.back().made_at;
  if (!o.due.empty()) r.due = day_end_from_text(o.due);
  if (r.due && *r.due <= r.in_force_from)
    throw Error{Errc::inconsistent,
                fmt::format("due on {} for a calibration in force from {}", r.due->date(),
                            r.in_force_from.date()),
                "the next check comes later; how much later is the owner's decision"};
  r.note = o.note;
  for (const CheckRecord& c : f.checks) r.checks.push_back(c.id);
  return r;
}

// The same checks from the same moment on: typed once more, or by a script that was not told.
void refuse_again(const std::vector<notebook::CalibrationRecord>& earlier,
                  const notebook::CalibrationRecord& r, const std::string& name) {
  const auto same = [&](const notebook::CalibrationRecord& c) {
    return c.in_force_from == r.in_force_from && c.due == r.due && c.note == r.note &&
           c.checks.size() == r.checks.size() &&
           std::is_permutation(c.checks.begin(), c.checks.end(), r.checks.begin());
  };
  if (std::any_of(earlier.begin(), earlier.end(), same))
    throw Error{Errc::inconsistent,
                fmt::format("these checks of {} are in force from {} already", name,
                            r.in_force_from.date()),
                fmt::format("areo calibrate show {} shows it", shell_word(name))};
}

void print_long_pause(const wording::Fitted& f) {
  if (const CheckRecord* first = after_long_pause(f.checks))
    line(
        fmt::format("note: old and new checks are fitted together; those from {0} on alone: areo "
                    "calibrate fit {1} --since {0}",
                    first->made_at.date(), shell_word(f.instrument.name())));
}

}  // namespace

int run_fit(const CalibrateOptions& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const InstrumentRecord instrument = book.instrument(o.name);
  const wording::Fitted f =
      wording::fitted(book, instrument,
                      without(made_since(book.checks(instrument.id), o.since, o.name), o.without,
                              o.name, o.since.empty() ? "" : " since " + o.since));
  // What is wrong with the call is wrong whatever the checks say.
  const notebook::CalibrationRecord record = record_of(o, f);
  const auto earlier = book.calibrations(instrument.id);
  const notebook::CalibrationRecord* before = newest(earlier, record.in_force_from);
  const int code = f.fit.consistent ? done : said_no;
  refuse_again(earlier, record, o.name);
  if (f.fit.consistent) book.add(record);
  const auto changes = changed(book, instrument, earlier, book.calibrations(instrument.id));
  std::optional<calibration::Drift> change;
  if (f.fit.consistent && before) change = drift(book, instrument, *before, record);
  if (session.json) {
    raw_line(
        fit_json(f, f.fit.consistent ? std::optional{record.in_force_from} : std::nullopt,
                 fmt::format(R"(,"due":{},"drift":{},"changes":{})",
                             wording::moment_json(f.fit.consistent ? record.due : std::nullopt),
                             change ? wording::drift_json(*before, *change) : "null",
                             wording::changes_json(changes))));
    return code;
  }
  print_fit(f);
  if (!f.fit.consistent) {
    print_long_pause(f);
    print_contradiction(f);
    return code;
  }
  print_in_force(record);
  for (const std::string& text : wording::changes_lines(changes)) line("  " + text);
  if (change) print_drift(instrument, *before, *change);
  print_long_pause(f);
  line(fmt::format("next: areo {} READING --temp TEMP --{} {}",
                   instrument.refractometer() != nullptr ? "refract" : "correct",
                   instrument.thermometer() == nullptr ? "instrument" : "thermometer",
                   shell_word(o.name)));
  return code;
}

int run_show_calibration(const CalibrateOptions& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const InstrumentRecord instrument = book.instrument(o.name);
  const auto all = book.checks(instrument.id);
  const auto in_force = book.in_force(instrument.id, now());
  const auto used = in_force ? checks_of(book, *in_force) : std::vector<CheckRecord>{};
  const auto remarks = correction_in_force(book, instrument, now()).remarks;
  if (session.json) {
    if (in_force) {
      wording::Fitted f = wording::fitted(book, instrument, used);
      f.remarks.insert(f.remarks.end(), remarks.begin(), remarks.end());
      raw_line(
          fit_json(f, in_force->in_force_from,
                   fmt::format(R"(,"due":{},"history":{})", wording::moment_json(in_force->due),
                               history_json(book, instrument))));
    } else {
      raw_line(fmt::format(
          R"({{"instrument":{},"checks":0,"in_force_from":null,"due":null,"history":[],"notes":{}}})",
          text::json_string(instrument.name()), text::json_list(remarks)));
    }
    for (const CheckRecord& c : all) {
      const std::span one{&c, 1};
      raw_line(wording::check_json(c, evaluate(book, instrument, one).checks.front(),
                                   wording::unit_of(instrument),
                                   remarks_on_thermometers(book, one)));
    }
    return done;
  }
  if (in_force) {
    print_fit(wording::fitted(book, instrument, used));
    print_in_force(*in_force);
  } else {
    line(fmt::format("{}: no calibration in force; its error is taken as within one division",
                     o.name));
  }
  print_left_out(book, instrument, used);
  print_history(book, instrument);
  notes(remarks);
  if (!in_force)
    line(all.empty() ? fmt::format("next: areo calibrate {}",
                                   instrument.thermometer() == nullptr
                                       ? fmt::format("water {} READING TEMP", shell_word(o.name))
                                       : fmt::format("ice {} READING", shell_word(o.name)))
                     : fmt::format("next: areo calibrate fit {}", shell_word(o.name)));
  return done;
}

}  // namespace areo::cli
