// SPDX-License-Identifier: GPL-3.0-or-later
// areo calibrate water, sugar, salt, certificate, ice, boiling: one check.
#include <span>

#include "areo/entry/check_entry.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "calibrate.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "usage.hpp"

namespace areo::cli {

using notebook::CheckRecord;
using notebook::InstrumentRecord;

int run_check(const CalibrateOptions& o, notebook::CheckMethod method, const Session& session) {
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
  const auto remarks = remarks_on_thermometers(book, std::span{&r, 1});
  if (session.json)
    raw_line(wording::check_json(r, c, wording::unit_of(instrument), remarks));
  else
    lines(wording::new_check_lines(instrument, r, c, book.checks(instrument.id), remarks,
                                   session.full));
  return done;
}

}  // namespace areo::cli
