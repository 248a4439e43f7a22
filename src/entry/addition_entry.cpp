// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/addition_entry.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/reading_entry.hpp"
#include "areo/entry/usual_units.hpp"
#include "areo/physics/scale.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_amount.hpp"
#include "areo/text/parse_hydrometer.hpp"

namespace areo::entry {

using notebook::AdditionRecord;
using notebook::Substance;

namespace {

// "100g", "4oz" or "0.5L": exactly one of both.
void note_amount(AdditionRecord& r, const std::string& typed, const notebook::Settings& settings) {
  const bool dry =
      r.what == Substance::sugar || r.what == Substance::salt || r.what == Substance::acid;
  const std::string text = completed(typed, dry ? Quantity::mass : Quantity::volume, settings).text;
  r.amount_typed = text;
  const text::AmountKind kind = text::amount_kind(text);
  if (dry && kind == text::AmountKind::volume)
    throw ParseError{fmt::format("{} is weighed: a volume of it says little", word(r.what)), text,
                     0, text.size(), "give its mass, e.g. 100g"};
  double& amount = dry || kind == text::AmountKind::mass
                       ? r.mass_g.emplace(text::grams_from_text(text))
                       : r.volume_l.emplace(text::litres_from_text(text));
  if (!(amount > 0)) throw ParseError{"an amount is above zero", text, 0, text.size()};
}

// The extract of a juice, on whatever scale it was read or printed.
void note_extract(AdditionRecord& r, const std::string& text) {
  const text::TypedMark m = text::mark_from_text(text);
  const auto percent = [&](double mark) {
    return 100 * physics::liquid_from_mark(m.scale, mark).extract.value();
  };
  r.extract_typed = text;
  r.extract_percent = percent(m.value);
  if (!(*r.extract_percent >= 0))
    throw ParseError{"lighter than water: no juice", text, 0, text.size(),
                     "part of a ferment is added with: areo addition add part"};
  r.extract_half_width = (percent(m.value + m.half_width) - percent(m.value - m.half_width)) / 2;
}

}  // namespace

AdditionRecord addition_record(const TypedAddition& o, const notebook::Notebook& book) {
  const notebook::BatchRecord batch = book.batch(o.batch);
  require_open(batch, book);
  AdditionRecord r;
  r.batch = batch.id;
  r.bottle = o.bottle;
  r.what = o.what;
  r.noted_at = now();
  r.made_at = o.on.empty() ? r.noted_at : past_moment_from_text(o.on, r.noted_at);
  note_amount(r, o.amount, book.settings());
  if (o.what == Substance::juice) note_extract(r, o.extract);
  if (o.what == Substance::batch) {
    r.other = book.batch(o.other).id;
    if (r.other == batch.id)
      throw Error{Errc::inconsistent, "a batch cannot be added to itself", "name the other one"};
  }
  r.into_typed = o.into;
  if (!o.into.empty()) {
    r.into_l = text::litres_from_text(o.into);
    if (!(*r.into_l > 0)) throw ParseError{"a volume is above zero", o.into, 0, o.into.size()};
  }
  if (!r.bottle.empty() && !r.into_l)
    throw Error{Errc::inconsistent, "how much was in the bottle?", "say --into 0.75L"};
  if (!r.into_l && !batch.volume_l)
    throw Error{Errc::inconsistent, fmt::format("the volume of {} is not known", batch.name),
                fmt::format("say --into 4.6L, or once for all: areo batch amend {} --volume 5L "
                            "--reason TEXT",
                            shell_word(batch.name))};
  r.person = o.person;
  r.note = o.note;
  return r;
}

}  // namespace areo::entry
