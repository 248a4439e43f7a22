// A certificate for programs; the schema is in docs/reference/json.md.
#include <fmt/format.h>

#include <cmath>

#include "areo/core/version.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/budget.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/instrument.hpp"
#include "certificate_parts.hpp"

namespace areo::paper {
namespace {

std::string or_null(const std::string& text) {
  return text.empty() ? "null" : text::json_string(text);
}

template <class All, class Object>
std::string list(const All& all, const Object& object) {
  std::string out;
  for (std::size_t i = 0; i < all.size(); ++i) out += (i == 0 ? "" : ",") + object(i);
  return "[" + out + "]";
}

std::string checks(const Certified& c) {
  return list(c.fitted.checks, [&](std::size_t i) {
    const notebook::CheckRecord& r = c.fitted.checks[i];
    const calibration::Check& k = c.fitted.evaluated.checks[i];
    return fmt::format(
        R"({{"check":{},"method":"{}","made_at":"{}","label":{},"indication":{},"expected":{},)"
        R"("correction":{},"standard_uncertainty":{},"expanded_uncertainty":{},"residual":{},)"
        R"("temperature_c":{},"thermometer":{},"water":{},"balance":{},"balance_division_g":{},)"
        R"("apart":{},"note":{}}})",
        r.id, notebook::word(r.method), r.made_at.text(), text::json_string(k.label), k.indication,
        k.expected.estimate, k.correction.estimate, k.correction.u, k.correction.expanded(),
        c.fitted.fit.residuals[i], text::json_number(r.temperature_c),
        c.read_with[i].empty() ? "null" : text::json_string(c.read_with[i].front()),
        in_liquid(r) ? or_null(water_word(r.water)) : "null", or_null(r.balance),
        r.solution ? fmt::format("{}", r.solution->balance_division_g) : "null",
        r.method == notebook::CheckMethod::certificate ? fmt::format("{}", r.apart) : "null",
        text::json_string(r.note));
  });
}

std::string corrections(const Certified& c) {
  return list(c.corrections, [&](std::size_t i) {
    const calibration::CorrectionBudget& p = c.corrections[i];
    return fmt::format(
        R"({{"indication":{},"correction":{},"standard_uncertainty":{},"expanded_uncertainty":{},)"
        R"("checked":{}}})",
        p.indication, p.correction.estimate, p.correction.u, p.correction.expanded(),
        c.fitted.fit.correction.beyond(p.indication) == 0);
  });
}

std::string inputs(const Certified& c) {
  const calibration::CheckSet& set = c.fitted.evaluated;
  std::string out;
  for (std::size_t k = 0; k < set.inputs.all().size(); ++k) {
    const auto concerned = calibration::checks_with(set, k);
    if (concerned.empty()) continue;
    const uncertainty::Input& input = set.inputs.all()[k];
    out += fmt::format(
        R"({}{{"name":{},"provenance":{},"distribution":"{}","evaluation":"{}","input_value":{},)"
        R"("input_standard_uncertainty":{},"input_unit":{},"shares":{},"of_checks":{}}})",
        out.empty() ? "" : ",", text::json_string(input.name), text::json_string(input.provenance),
        wording::distribution_word(input.shape),
        input.type == uncertainty::Evaluation::type_a ? "A" : "B", input.value, input.u,
        text::json_string(input.unit),
        list(c.budgets, [&](std::size_t i) { return fmt::format("{}", c.budgets[i].shares[k]); }),
        list(concerned, [&](std::size_t i) {
          return fmt::format(R"({{"check":{},"share":{}}})", c.fitted.checks[concerned[i]].id,
                             set.shares[concerned[i]][k]);
        }));
  }
  return "[" + out + "]";
}

std::string budgets(const Certified& c) {
  return list(c.budgets, [&](std::size_t i) {
    const calibration::CorrectionBudget& b = c.budgets[i];
    return fmt::format(
        R"({{"indication":{},"standard_uncertainty":{},"expanded_uncertainty":{},"slope_share":{},)"
        R"("beyond_share":{}}})",
        b.indication, b.correction.u, b.correction.expanded(), b.slope, b.beyond);
  });
}

std::string conformity(const Certified& c) {
  const std::string points = list(c.conformity, [&](std::size_t i) {
    const calibration::ConformityPoint& p = c.conformity[i];
    return fmt::format(
        R"({{"indication":{},"error":{},"expanded_uncertainty":{},"least":{},"most":{},)"
        R"("verdict":"{}"}})",
        p.indication, p.error, p.expanded, p.least, p.most, wording::conformity_word(p.verdict));
  });
  return fmt::format(R"("conformity":{},"tolerance":{},"conformity_points":{})",
                     c.conformity.empty()
                         ? "null"
                         : fmt::format("\"{}\"", wording::conformity_word(calibration::judge(
                                                     c.fitted.fit.correction, c.fitted.tolerance))),
                     c.fitted.tolerance, points);
}

const char* status_word(Clause::Status status) {
  switch (status) {
    case Clause::Status::stated: return "stated";
    case Clause::Status::in_part: return "in_part";
    case Clause::Status::by_hand: return "by_hand";
    case Clause::Status::does_not_apply: return "does_not_apply";
  }
  return "";
}

std::string clauses(const Certified& c) {
  const auto all = certificate_clauses(c);
  return list(all, [&](std::size_t i) {
    return fmt::format(R"({{"item":{},"asks":{},"status":"{}","where_or_why":{}}})",
                       text::json_string(all[i].item), text::json_string(all[i].asks),
                       status_word(all[i].status), text::json_string(all[i].where_or_why));
  });
}

}  // namespace

std::string certificate_json(const Certified& c, const std::string& members) {
  const notebook::InstrumentRecord& r = c.instrument;
  const auto* h = r.hydrometer();
  const instruments::Correction& k = c.fitted.fit.correction;
  return fmt::format(
             R"({{"certificate":{},"accredited":false,"issued_on":"{}","made_by":{},"place":{},)"
             R"("made_for":{},"instrument":{},"kind":"{}","description":{},"calibration":{},)"
             R"("in_force_from":{},"in_force_until":{},"due":{},)",
             text::json_string(c.number), c.issue.on.date(), or_null(c.issue.by),
             or_null(c.issue.place), or_null(c.issue.customer),
             text::json_string(c.instrument.name()), c.instrument.kind(),
             text::json_string(wording::instrument_text(c.instrument)), c.calibration.id,
             wording::moment_json(c.calibration.in_force_from),
             wording::moment_json(c.after ? std::optional{c.after->in_force_from} : std::nullopt),
             wording::moment_json(c.calibration.due)) +
         fmt::format(R"("maker":{},"serial":{},"condition":{},)", or_null(r.maker),
                     or_null(r.serial), or_null(r.note)) +
         (h == nullptr
              ? ""
              : fmt::format(R"("made_for_mn_m":{},"stem_diameter_mm":{},"mass_g":{},)",
                            text::json_number(h->made_for_mn_m),
                            text::json_number(h->stem_diameter_mm), text::json_number(h->mass_g))) +
         fmt::format(
             R"("unit":{},"instruction":{},"r0":{},"offset":{},"offset_standard_uncertainty":{},)"
             R"("slope":{},"slope_standard_uncertainty":{},"beyond_standard_uncertainty":{},)"
             R"("surface_standard_uncertainty":{},"slope_used":{},"checked_from":{},"checked_to":{},"chi_squared":{},)"
             R"("degrees_of_freedom":{},"consistent":{},)",
             text::json_string(wording::unit_of(c.instrument)),
             text::json_string(wording::instruction_text(c.fitted)), k.r0, k.offset, k.u_offset,
             k.slope, k.u_slope, k.u_slope_beyond, std::abs(k.u_surface), c.fitted.fit.slope_used,
             k.checked_lo, k.checked_hi, c.fitted.fit.line.chi_squared,
             c.fitted.fit.line.degrees_of_freedom, c.fitted.fit.consistent) +
         fmt::format(
             R"("checks":{},"corrections":{},"budgets":{},"inputs":{},{},"drift":{},)"
             R"("clauses":{},"notes":{},"areo":"{}","tables":"{}"{}}})",
             checks(c), corrections(c), budgets(c), inputs(c), conformity(c),
             c.before ? wording::drift_json(c.before->calibration, c.before->drift) : "null",
             clauses(c), text::json_list(certificate_notes(c)), version, tables_digest, members);
}

}  // namespace areo::paper
