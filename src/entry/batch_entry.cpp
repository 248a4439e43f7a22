// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/batch_entry.hpp"

#include <fmt/format.h>

#include <optional>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/strength.hpp"

namespace areo::entry {
namespace {

std::optional<double> volume_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const double litres = text::litres_from_text(text);
  if (!(litres > 0)) throw ParseError{"a volume is above zero", text, 0, text.size()};
  return litres;
}

// The words are refused before they are written.
void require_known(const ExtractWords& words, const notebook::Notebook& book) {
  (void)extract_from_word(words.extract);
  if (!words.liquid.empty()) (void)notebook::liquid_factor(book, words.liquid);
}

}  // namespace

notebook::BatchRecord batch_record(const TypedBatch& o, const notebook::Notebook& book) {
  require_known(o.extract, book);
  notebook::BatchRecord r;
  r.name = o.name;
  r.drink = o.drink;
  r.culture = wording::culture_from_text(o.culture);
  r.vessel = o.vessel;
  r.volume_typed = o.volume;
  r.volume_l = volume_from_text(o.volume);
  r.extract = o.extract.extract;
  r.liquid = o.extract.liquid;
  r.started_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  return r;
}

AmendedBatch amended_batch(const TypedBatch& o, const std::string& reason,
                           const notebook::Notebook& book) {
  const notebook::BatchRecord before = book.batch(o.name);
  require_known(o.extract, book);
  (void)wording::culture_from_text(o.culture);
  const std::optional<double> litres = volume_from_text(o.volume);
  AmendedBatch amended{before};
  if (litres) {
    amended.record.volume_typed = o.volume;
    amended.record.volume_l = litres;
  }
  bool any = false;
  for (const auto& [field, value, old] :
       {std::tuple{"drink", o.drink, before.drink},
        std::tuple{"culture", o.culture, std::string{notebook::word(before.culture)}},
        std::tuple{"vessel", o.vessel, before.vessel},
        std::tuple{"volume", o.volume, before.volume_typed},
        std::tuple{"extract", o.extract.extract, before.extract},
        std::tuple{"liquid", o.extract.liquid, before.liquid},
        std::tuple{"note", o.note, before.note}}) {
    any = any || !value.empty();
    if (value.empty() || value == old) continue;
    const bool volume = field == std::string_view{"volume"};
    amended.amendments.push_back(
        {before.id, now(), field, value, volume ? litres : std::nullopt, reason});
  }
  if (any && amended.amendments.empty())
    throw Error{Errc::inconsistent, fmt::format("{} is so already", o.name),
                fmt::format("areo batch show {} shows it", shell_word(o.name))};
  return amended;
}

}  // namespace areo::entry
