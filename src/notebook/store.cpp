#include "areo/notebook/store.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "impl.hpp"
#include "migrate.hpp"
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
constexpr std::array method_words{
    std::pair{CheckMethod::water, "water"}, std::pair{CheckMethod::sugar, "sugar"},
    std::pair{CheckMethod::salt, "salt"},   std::pair{CheckMethod::certificate, "certificate"},
    std::pair{CheckMethod::ice, "ice"},     std::pair{CheckMethod::boiling, "boiling"},
};

// 0 of a file that is not there.
std::uintmax_t bytes_in(const std::string& path) {
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  return error ? 0 : size;
}

bool may_be_written(const std::string& path) {
  return faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) == 0;
}

// Whoever reads a notebook makes two small files beside it. Where that cannot be, it is read as it
// lies, as if nobody could write it meanwhile; but what was noted last must be in it.
Connection open_to_read(const std::string& path) {
  const bool writable = may_be_written(path);
  const bool more = bytes_in(path + "-wal") > 0;
  if (writable || more) {
    Connection db{path, writable ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY};
    const int code =
        sqlite3_exec(db.get(), "PRAGMA user_version", nullptr, nullptr, nullptr) & 0xff;
    if (code != SQLITE_CANTOPEN && code != SQLITE_READONLY) return db;
  }
  if (more)
    refuse(path, "its last readings lie in a file beside it, and cannot be joined to it here",
           fmt::format("copy {0} and {0}-wal to a folder that may be written", path));
  return Connection::immutable(path);
}

// SQLite sees damage only where it reads. This looks at the whole file where that costs little:
// 3 ms a MB, and a notebook of 1000 readings has 0.3 MB. Of 600 random places that were overwritten
// with 8 bytes it found 40 %, reading all rows 19 %; the others were other texts and numbers, or
// bytes not in use.
void require_whole(const Connection& db) {
  constexpr std::uintmax_t most_bytes = 4 << 20;
  if (bytes_in(db.path()) > most_bytes) return;
  Statement check{db, "PRAGMA quick_check(1)"};
  if (check.step() && check.text(0) != "ok")
    refuse(db.path(), "is damaged: " + check.text(0), sqlite::advice(SQLITE_CORRUPT));
}

Connection open(const std::string& path, Open how) {
  namespace fs = std::filesystem;
  if (how != Open::create && !fs::exists(path))
    refuse(path, "there is no such file yet",
           "register an instrument first: areo instrument add NAME");
  if (how == Open::create) {
    std::error_code error;
    if (const fs::path folder = fs::path{path}.parent_path(); !folder.empty())
      fs::create_directories(folder, error);
    if (error) refuse(path, "its folder cannot be made: " + error.message(), "name another file");
  }
  // An empty file becomes a notebook; SQLite would throw away what lies beside it.
  if (bytes_in(path) == 0 && bytes_in(path + "-wal") > 0)
    refuse(path, "is empty, but its last readings lie in a file beside it",
           sqlite::advice(SQLITE_CORRUPT));
  if (how != Open::read && fs::exists(path) && !may_be_written(path))
    refuse(path, "may not be written", "check that file and folder exist and may be written");
  Connection db = how == Open::read
                      ? open_to_read(path)
                      : Connection{path, SQLITE_OPEN_READWRITE |
                                             (how == Open::create ? SQLITE_OPEN_CREATE : 0)};
  prepare(db);
  require_whole(db);
  if (db.read_only()) return db;
  db.run("PRAGMA foreign_keys = ON");
  db.run_patiently("PRAGMA journal_mode = WAL");
  db.run("PRAGMA synchronous = FULL");
  return db;
}

InstrumentRecord instrument_from(const Statement& s) {
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
    h.glass_expansion_per_c = s.real(10);
    h.meniscus_height = s.optional_real(11);
    h.tolerance = s.optional_real(12);
    r.instrument = h;
  }
  r.added_at = moment_from_text(s.text(13));
  r.note = s.text(14);
  return r;
}

constexpr const char* select_instrument =
    "SELECT id, name, kind, scale_kind, scale_sample_c, scale_water_c, scale_modulus, lo, hi, "
    "division, glass_expansion_per_c, meniscus_height, tolerance, added_at, note, compensated, "
    "also_gravity FROM instrument ";

CheckRecord check_from(const Statement& s) {
  CheckRecord r;
  r.id = s.integer(0);
  r.instrument = s.integer(1);
  r.method = value_of(method_words, s.text(2));
  r.made_at = moment_from_text(s.text(3));
  r.reading_typed = s.text(4);
  r.reading = s.real(5);
  r.reading_half_width = s.real(6);
  r.temperature_typed = s.text(7);
  r.temperature_c = s.optional_real(8);
  r.temperature_half_width_c = s.real(9);
  r.meniscus = s.text(10) == "top" ? instruments::Meniscus::top : instruments::Meniscus::level;
  if (const auto solute_g = s.optional_real(11))
    r.solution = calibration::WeighedSolution{r.method == CheckMethod::salt
                                                  ? calibration::Solute::sodium_chloride
                                                  : calibration::Solute::sucrose,
                                              *solute_g,
                                              s.real(12),
                                              s.real(13),
                                              s.real(14),
                                              s.real(15),
                                              s.real(16),
                                              s.real(17)};
  r.correction = s.optional_real(18);
  r.expanded = s.optional_real(19);
  r.coverage_factor = s.optional_real(20);
  r.pressure_pa = s.optional_real(21);
  r.pressure_half_width_pa = s.optional_real(22);
  r.note = s.text(23);
  r.thermometer = s.optional_integer(24);
  return r;
}

}  // namespace

std::string_view word(CheckMethod method) { return word_of(method_words, method); }

const char* InstrumentRecord::kind() const {
  if (hydrometer() != nullptr) return "hydrometer";
  return refractometer() != nullptr ? "refractometer" : "thermometer";
}

Graduation InstrumentRecord::graduation() const {
  if (const auto* h = hydrometer())
    return {h->lo, h->hi, h->division, h->maximum_permissible_error()};
  if (const auto* r = refractometer())
    return {r->lo, r->hi, r->division, r->maximum_permissible_error()};
  const auto* t = thermometer();
  return {t->lo_c, t->hi_c, t->division_c, t->division_c};
}

const std::string& InstrumentRecord::name() const {
  return std::visit([](const auto& i) -> const std::string& { return i.name; }, instrument);
}

std::string default_path() {
  const auto variable = [](const char* name) -> std::string {
    const char* v = std::getenv(name);
    return v != nullptr ? v : "";
  };
  if (std::string file = variable("AREO_NOTEBOOK"); !file.empty()) return file;
  if (const std::string data = variable("XDG_DATA_HOME"); !data.empty())
    return data + "/areo/notebook.db";
  if (const std::string home = variable("HOME"); !home.empty())
    return home + "/.local/share/areo/notebook.db";
  throw Error{Errc::store, "no place for the notebook is known",
              "set AREO_NOTEBOOK to a file name"};
}

Notebook::Notebook(const std::string& path, Open how)
    : impl_{std::make_unique<Impl>(Impl{open(path, how)})} {}
Notebook::~Notebook() = default;
Notebook::Notebook(Notebook&&) noexcept = default;
Notebook& Notebook::operator=(Notebook&&) noexcept = default;

Id Notebook::add(const InstrumentRecord& r) {
  const Connection& db = impl_->db;
  Transaction t{db};
  {
    Statement taken{db, "SELECT 1 FROM instrument WHERE name = ?"};
    if (taken.bind(std::string_view{r.name()}).step())
      refuse(db.path(), fmt::format("there is an instrument '{}' already", r.name()),
             "choose another name; an instrument's history stays with its name");
  }
  Statement s{db,
              "INSERT INTO instrument (name, kind, scale_kind, scale_sample_c, scale_water_c, "
              "scale_modulus, glass_expansion_per_c, meniscus_height, tolerance, compensated, "
              "also_gravity, lo, hi, division, added_at, note) VALUES "
              "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"};
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
  s.bind(std::string_view{r.added_at.text()}).bind(std::string_view{r.note});
  s.step();
  t.commit();
  return impl_->last_id();
}

Id Notebook::add(const CheckRecord& r) {
  const Connection& db = impl_->db;
  Transaction t{db};
  Statement s{db,
              "INSERT INTO check_reading (instrument, method, made_at, made_at_s, reading_typed, "
              "reading, reading_half_width, temperature_typed, temperature_c, "
              "temperature_half_width_c, meniscus, solute_g, water_g, balance_division_g, "
              "purity_lo, purity_hi, moisture_lo, moisture_hi, correction, expanded, "
              "coverage_factor, pressure_pa, pressure_half_width_pa, note, thermometer) VALUES "
              "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"};
  s.bind(r.instrument)
      .bind(word(r.method))
      .bind(std::string_view{r.made_at.text()})
      .bind(r.made_at.seconds)
      .bind(std::string_view{r.reading_typed})
      .bind(r.reading)
      .bind(r.reading_half_width)
      .bind(std::string_view{r.temperature_typed})
      .bind(r.temperature_c)
      .bind(r.temperature_half_width_c)
      .bind(std::string_view{r.meniscus == instruments::Meniscus::top ? "top" : "level"});
  if (r.solution) {
    const auto& w = *r.solution;
    s.bind(w.solute_g).bind(w.water_g).bind(w.balance_division_g).bind(w.purity_lo);
    s.bind(w.purity_hi).bind(w.moisture_lo).bind(w.moisture_hi);
  } else {
    for (int i = 0; i < 7; ++i) s.null();
  }
  s.bind(r.correction)
      .bind(r.expanded)
      .bind(r.coverage_factor)
      .bind(r.pressure_pa)
      .bind(r.pressure_half_width_pa)
      .bind(std::string_view{r.note})
      .bind(r.thermometer);
  s.step();
  t.commit();
  return impl_->last_id();
}

Id Notebook::add(const CalibrationRecord& r) {
  const Connection& db = impl_->db;
  if (r.checks.empty()) refuse(db.path(), "a calibration needs a check", "check in water first");
  Transaction t{db};
  Statement s{db,
              "INSERT INTO calibration (instrument, in_force_from, in_force_from_s, note, due, "
              "due_s) VALUES (?, ?, ?, ?, ?, ?)"};
  s.bind(r.instrument)
      .bind(std::string_view{r.in_force_from.text()})
      .bind(r.in_force_from.seconds)
      .bind(std::string_view{r.note});
  if (r.due)
    s.bind(std::string_view{r.due->text()}).bind(r.due->seconds);
  else
    s.null().null();
  s.step();
  const Id id = impl_->last_id();
  for (const Id check : r.checks) {
    Statement own{db, "SELECT 1 FROM check_reading WHERE id = ? AND instrument = ?"};
    if (!own.bind(check).bind(r.instrument).step())
      refuse(db.path(), fmt::format("this instrument has no check {}", check),
             "areo calibrate show NAME lists its checks");
    Statement link{db, "INSERT INTO calibration_check (calibration, check_reading) VALUES (?, ?)"};
    link.bind(id).bind(check).step();
  }
  t.commit();
  return id;
}

std::vector<InstrumentRecord> Notebook::instruments() const {
  std::vector<InstrumentRecord> all;
  Statement s{impl_->db, fmt::format("{}ORDER BY name", select_instrument).c_str()};
  while (s.step()) all.push_back(instrument_from(s));
  return all;
}

InstrumentRecord Notebook::instrument(std::string_view name) const {
  Statement s{impl_->db, fmt::format("{}WHERE name = ?", select_instrument).c_str()};
  if (s.bind(name).step()) return instrument_from(s);
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
  return instrument_from(s);
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
  s.bind(instrument).bind(std::string_view{at.text()}).bind(at.seconds).bind(reason).step();
  t.commit();
}

std::optional<Retirement> Notebook::retired(Id instrument) const {
  Statement s{impl_->db, "SELECT at, reason FROM instrument_retired WHERE instrument = ?"};
  if (!s.bind(instrument).step()) return std::nullopt;
  return Retirement{moment_from_text(s.text(0)), s.text(1)};
}

std::vector<CheckRecord> Notebook::checks(Id instrument) const {
  std::vector<CheckRecord> all;
  Statement s{impl_->db,
              "SELECT id, instrument, method, made_at, reading_typed, reading, reading_half_width, "
              "temperature_typed, temperature_c, temperature_half_width_c, meniscus, solute_g, "
              "water_g, balance_division_g, purity_lo, purity_hi, moisture_lo, moisture_hi, "
              "correction, expanded, coverage_factor, pressure_pa, pressure_half_width_pa, note, "
              "thermometer FROM check_reading WHERE instrument = ? ORDER BY made_at_s, id"};
  s.bind(instrument);
  while (s.step()) all.push_back(check_from(s));
  return all;
}

std::vector<CalibrationRecord> Notebook::calibrations(Id instrument) const {
  std::vector<CalibrationRecord> all;
  Statement s{impl_->db,
              "SELECT id, in_force_from, note, due FROM calibration WHERE instrument = ? "
              "ORDER BY in_force_from_s, id"};
  s.bind(instrument);
  while (s.step()) {
    CalibrationRecord r{s.integer(0), instrument, moment_from_text(s.text(1)), {}, s.text(2)};
    if (const std::string due = s.text(3); !due.empty()) r.due = moment_from_text(due);
    Statement links{impl_->db,
                    "SELECT check_reading FROM calibration_check WHERE calibration = ? "
                    "ORDER BY check_reading"};
    links.bind(r.id);
    while (links.step()) r.checks.push_back(links.integer(0));
    all.push_back(std::move(r));
  }
  return all;
}

std::optional<CalibrationRecord> Notebook::in_force(Id instrument, Moment at) const {
  std::optional<CalibrationRecord> newest;
  for (CalibrationRecord& r : calibrations(instrument))  // in order of time
    if (r.in_force_from <= at) newest = std::move(r);
  return newest;
}

}  // namespace areo::notebook
