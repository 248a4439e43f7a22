// SPDX-License-Identifier: GPL-3.0-or-later
// areo calibrate water, sugar, salt, certificate, ice, boiling: one check.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/check_entry.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "calibrate.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using notebook::CheckMethod;
using notebook::CheckRecord;
using notebook::InstrumentRecord;

// Two places of the scale at least: water for its foot, a weighed solution further up.
std::string next_step(const InstrumentRecord& instrument, const std::vector<CheckRecord>& checks) {
  const auto any = [&](std::initializer_list<CheckMethod> methods) {
    return std::any_of(checks.begin(), checks.end(), [&](const CheckRecord& c) {
      return std::find(methods.begin(), methods.end(), c.method) != methods.end();
    });
  };
  using enum CheckMethod;
  const std::string& name = instrument.name();
  const std::string then = fmt::format("areo calibrate fit {}", shell_word(name));
  const bool certified = any({certificate});
  if (instrument.thermometer() != nullptr)
    return certified || (any({ice}) && any({boiling}))
               ? (certified ? "the certificate's other points, or " : "") + then
               : fmt::format("the other fixed point ({}), then {}",
                             any({ice}) ? "boiling water" : "melting ice", then);
  if (!certified && !any({water}))
    return fmt::format("clean water as well: areo calibrate water {} READING TEMP, then {}",
                       shell_word(name), then);
  if (!certified && !any({sugar, salt}))
    return fmt::format("a weighed sugar solution (areo solution sugar), then {}", then);
  return fmt::format("{}, or {}", certified ? "the certificate's other points" : "another solution",
                     then);
}

}  // namespace

int run_check(const CalibrateOptions& o, CheckMethod method, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const InstrumentRecord instrument = book.instrument(o.name);
  require_method(instrument, method);
  refuse_together(o.top, "--top", instrument.refractometer() != nullptr, "a refractometer",
                  "it has no meniscus: leave --top out");
  CheckRecord r = entry::check_record(o, method, instrument, book);
  // Evaluated before it is written: an impossible check is refused whole.
  const calibration::Check c = evaluate(book, instrument, std::span{&r, 1}).checks.front();
  entry::refuse_foot_of_scale(instrument, c);
  if (!insisted(batch::doubts(instrument, r, c, book.checks(instrument.id)), o.yes, session))
    return said_no;
  r.id = book.add(r);
  const std::string unit = wording::unit_of(instrument);
  const auto remarks = remarks_on_thermometers(book, std::span{&r, 1});
  if (session.json) {
    raw_line(wording::check_json(r, c, unit, remarks));
    return done;
  }
  line(fmt::format("{} shows {}, it should show {}", o.name,
                   wording::shown(instrument, c.indication),
                   text::value_text(c.expected, unit, session.full)));
  line(fmt::format("it reads {}", wording::behaviour_text(c, unit)));
  if (instrument.thermometer() == nullptr && !r.temperature_c && method != CheckMethod::certificate)
    line("note: no temperature given: the scale's reference temperature assumed, ± 5 °C");
  if (!r.water && in_liquid(method))
    line(
        "note: nobody named the water: taken as pure, with the doubt of 0 to 0.6 g/L of solids; "
        "say --distilled or --tap with a check");
  notes(remarks);
  line(fmt::format("noted as check {} of {}", r.id, r.made_at.date()));
  line("next: " + next_step(instrument, book.checks(instrument.id)));
  return done;
}

}  // namespace areo::cli
