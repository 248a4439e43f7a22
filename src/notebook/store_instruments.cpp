// SPDX-License-Identifier: GPL-3.0-or-later
// Instruments: what they are, and when they retire.
#include <fmt/format.h>

#include <array>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/notebook/store.hpp"
#include "impl.hpp"
#include "migrate.hpp"
#include "rules.hpp"
#include "words.hpp"

namespace areo::notebook {
namespace {

using physics::ScaleKind;
using sqlite::Connection;
using sqlite::Statement;
using sqlite::Transaction;

// Words in the file, so that a notebook can be read without areo.
constexpr std::array scale_words{
    std::pair{ScaleKind::specific_gravity, "specific_gravity"},
    std::pair{ScaleKind::apparent_gravity, "apparent_gravity"},
    std::pair{ScaleKind::density, "density_kg_m3"},
    std::pair{ScaleKind::plato, "plato"},
    std::pair{ScaleKind::brix, "brix"},
    std::pair{ScaleKind::baume, "baume"},
    std::pair{ScaleKind::oechsle, "oechsle"},
    std::pair{ScaleKind::sugar_concentration, "sugar_g_l"},
};
constexpr std::array refractometer_words{
    std::pair{instruments::RefractometerScale::brix, "brix"},
    std::pair{instruments::RefractometerScale::index, "refractive_index"},
};

InstrumentRecord instrument_from(const Statement& s, const IdentityRegister& known) {
  InstrumentRecord r;
  r.id = s.integer(0);
  const std::string name = s.text(1);
  const std::string kind = s.text(2);
  if (kind == "thermometer") {
    r.instrument = instruments::Thermometer{name, s.real(7), s.real(8), s.real(9)};
  } else if (kind == "refractometer") {
    r.instrument = instruments::Refractometer{name,
                                              value_of(refractometer_words, s.text(3)),
                                              s.real(7),
                                              s.real(8),
                                              s.real(9),
                                              s.integer(15) != 0,
                                              s.integer(16) != 0,
                                              s.optional_real(12)};
  } else {
    instruments::Hydrometer h;
    h.name = name;
    h.scale = {value_of(scale_words, s.text(3)), s.real(4), s.real(5), s.real(6)};
    h.lo = s.real(7);
    h.hi = s.real(8);
    h.division = s.real(9);
    h.length = instruments::usual_length(h);
    h.glass_expansion_per_c = s.real(10);
    h.meniscus_height = s.optional_real(11);
    h.tolerance = s.optional_real(12);
    h.stem_diameter_mm = s.optional_real(19);
    h.mass_g = s.optional_real(20);
    h.made_for_mn_m = s.optional_real(21);
    r.instrument = h;
  }
  std::visit([&](auto& i) { i.identity = known.at(r.id); }, r.instrument);
  r.added_at = moment_from_text(s.text(13));
  r.note = s.text(14);
  r.maker = s.text(17);
  r.serial = s.text(18);
  return r;
}

template <class Impl>
std::optional<InstrumentRecord> read(Impl& impl, const Statement& s) {
  return impl.read_row(fmt::format("instrument {} ('{}')", s.integer(0), s.text(1)),
                       [&] { return instrument_from(s, impl.instruments); });
}
template <class Impl>
InstrumentRecord read_one(Impl& impl, const Statement& s) {
  if (auto r = read(impl, s)) return *std::move(r);
  refuse_unreadable(impl.db.path(), fmt::format("instrument {}", s.integer(0)));
}

constexpr const char* select_instrument =
    "SELECT id, name, kind, scale_kind, scale_sample_c, scale_water_c, scale_modulus, lo, hi, "
    "division, glass_expansion_per_c, meniscus_height, tolerance, added_at, note, compensated, "
    "also_gravity, maker, serial, stem_diameter_mm, mass_g, made_for_mn_m FROM instrument ";

}  // namespace

const char* InstrumentRecord::kind() const {
  if (hydrometer() != nullptr) return "hydrometer";
  return refractometer() != nullptr ? "refractometer" : "thermometer";
}

Graduation InstrumentRecord::graduation() const {
  if (const auto* h = hydrometer())
    return {h->lo, h->hi, h->division, h->scale_length(), h->maximum_permissible_error()};
  if (const auto* r = refractometer())
    return {r->lo, r->hi, r->division, r->hi - r->lo, r->maximum_permissible_error()};
  const auto* t = thermometer();
  return {t->lo_c, t->hi_c, t->division_c, t->hi_c - t->lo_c, t->division_c};
}

const std::string& InstrumentRecord::name() const {
  return std::visit([](const auto& i) -> const std::string& { return i.name; }, instrument);
}

Id Notebook::add(const InstrumentRecord& r) {
  require_typed(*this, r);
  const Connection& db = impl_->db;
  Transaction t{db};
  {
    Statement taken{db, "SELECT 1 FROM instrument WHERE name = ?"};
    if (taken.bind(std::string_view{r.name()}).step())
      refuse(db.path(), fmt::format("there is an instrument '{}' already", r.name()),
             "choose another name; an instrument's history stays with its name");
  }
  Statement s{
      db,
      "INSERT INTO instrument (name, kind, scale_kind, scale_sample_c, scale_water_c, "
      "scale_modulus, glass_expansion_per_c, meniscus_height, tolerance, compensated, "
      "also_gravity, lo, hi, division, added_at, note, maker, serial, stem_diameter_mm, mass_g, "
      "made_for_mn_m) VALUES "
      "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"};
  s.bind(std::string_view{r.name()}).bind(std::string_view{r.kind()});
  if (const auto* h = r.hydrometer()) {
    s.bind(std::string_view{word_of(scale_words, h->scale.kind)})
        .bind(h->scale.sample_c)
        .bind(h->scale.water_c)
        .bind(h->scale.modulus)
        .bind(h->glass_expansion_per_c)
        .bind(h->meniscus_height)
        .bind(h->tolerance)
        .null()
        .null();
  } else if (const auto* refractometer = r.refractometer()) {
    s.bind(std::string_view{word_of(refractometer_words, refractometer->scale)});
    s.null().null().null().null().null().bind(refractometer->tolerance);
    s.bind(std::int64_t{refractometer->compensated})
        .bind(std::int64_t{refractometer->also_gravity});
  } else {
    s.bind(std::string_view{"celsius"});
    for (int i = 0; i < 8; ++i) s.null();
  }
  const Graduation g = r.graduation();
  s.bind(g.lo).bind(g.hi).bind(g.division);
  s.bind(std::string_view{stored(r.added_at)}).bind(std::string_view{r.note});
  for (const std::string& marked : {r.maker, r.serial}) bind_unless_empty(s, marked);
  if (const auto* h = r.hydrometer())
    s.bind(h->stem_diameter_mm).bind(h->mass_g).bind(h->made_for_mn_m);
  else
    s.null().null().null();
  s.step();
  t.commit();
  return impl_->last_id();
}

std::vector<InstrumentRecord> Notebook::instruments() const {
  std::vector<InstrumentRecord> all;
  Statement s{impl_->db, fmt::format("{}ORDER BY name", select_instrument).c_str()};
  while (s.step())
    if (auto r = read(*impl_, s)) all.push_back(*std::move(r));
  return all;
}

InstrumentRecord Notebook::instrument(std::string_view name) const {
  Statement s{impl_->db, fmt::format("{}WHERE name = ?", select_instrument).c_str()};
  if (s.bind(name).step()) return read_one(*impl_, s);
  std::vector<std::string> known;
  for (const InstrumentRecord& r : instruments()) known.push_back(r.name());
  const std::string near = nearest(name, known);
  throw Error{Errc::store,
              fmt::format("notebook {}: there is no instrument '{}'", impl_->db.path(), name),
              near.empty() ? "areo instrument list shows them all"
                           : fmt::format("did you mean '{}'?", near)};
}

InstrumentRecord Notebook::instrument(Id id) const {
  Statement s{impl_->db, fmt::format("{}WHERE id = ?", select_instrument).c_str()};
  if (!s.bind(id).step())
    refuse(impl_->db.path(), fmt::format("there is no instrument number {}", id), "");
  return read_one(*impl_, s);
}

void Notebook::retire(Id instrument, Moment at, std::string_view reason) {
  const Connection& db = impl_->db;
  if (reason.empty())
    refuse(db.path(), "an instrument retires for a reason", "say why with --reason");
  Transaction t{db};
  if (const auto before = retired(instrument))
    refuse(db.path(), fmt::format("it is retired already: {}", before->reason), "");
  Statement s{db,
              "INSERT INTO instrument_retired (instrument, at, at_s, reason) VALUES (?, ?, ?, ?)"};
  s.bind(instrument).bind(std::string_view{stored(at)}).bind(at.seconds).bind(reason).step();
  t.commit();
}

std::optional<Retirement> Notebook::retired(Id instrument) const {
  Statement s{impl_->db, "SELECT at, reason FROM instrument_retired WHERE instrument = ?"};
  if (!s.bind(instrument).step()) return std::nullopt;
  return impl_->read_row(fmt::format("instrument_retired {}", instrument), [&] {
    return Retirement{moment_from_text(s.text(0)), s.text(1)};
  });
}

}  // namespace areo::notebook
