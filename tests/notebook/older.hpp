// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Notebooks as older versions of areo wrote them.
#include <fmt/format.h>

#include <string>

#include "notebook/schema.hpp"
#include "temporary.hpp"

namespace areo::notebook {

// Columns by name: later versions have more of them. Enough readings that the tables have several
// pages.
inline constexpr const char* rows_since_1 = R"sql(
INSERT INTO instrument (id, name, kind, scale_kind, scale_sample_c, scale_water_c, lo, hi, division,
    glass_expansion_per_c, added_at, note)
  VALUES (1, 'stem-1', 'hydrometer', 'specific_gravity', 20, 20, 0.99, 1.1, 0.002, 25e-6,
    '2026-02-28T18:00:00+01:00', 'old');
INSERT INTO check_reading (id, instrument, method, made_at, made_at_s, reading_typed, reading,
    reading_half_width, temperature_typed, temperature_c, temperature_half_width_c, meniscus, note)
  WITH n (i) AS (VALUES (1) UNION ALL SELECT i + 1 FROM n WHERE i < 60)
  SELECT i, 1, 'water', '2026-03-01T10:00:00+00:00', 1772359200, '1.001', 1.001, 0, '21C', 21, 0.5,
    'level', 'check ' || i FROM n;
INSERT INTO calibration (id, instrument, in_force_from, in_force_from_s, note)
  VALUES (1, 1, '2026-03-01T10:00:00+00:00', 1772359200, '');
INSERT INTO calibration_check VALUES (1, 1);
)sql";
inline constexpr const char* rows_since_2 = R"sql(
INSERT INTO liquid_pair (id, liquid, made_at, made_at_s, refractometer, refraction_typed,
    refraction, refraction_half_width, refraction_temperature_typed, hydrometer, gravity_typed,
    gravity, gravity_half_width, gravity_temperature_typed, meniscus, temperature_half_width_c,
    note)
  VALUES (1, 'juice', '2026-03-01T10:00:00+00:00', 1772359200, 1, '12.6', 12.6, 0, '', 1, '1.050',
    1.05, 0, '', 'level', 0.5, '');
INSERT INTO liquid_pair_left_out VALUES (1, '2026-03-02T10:00:00+00:00', 'cloudy');
)sql";
inline constexpr const char* rows_since_3 = R"sql(
INSERT INTO batch (id, name, drink, culture, vessel, volume_typed, volume_l, extract, liquid,
    started_at, started_at_s, note)
  VALUES (1, 'PT-1', 'pear', 'mixed', 'jar', '5L', 5, '', '', '2026-03-02T10:00:00+00:00',
    1772445600, '');
INSERT INTO reading (id, batch, bottle, sample, what, made_at, made_at_s, noted_at, noted_at_s,
    instrument, typed, indication, half_width, temperature_typed, temperature_c,
    temperature_half_width_c, meniscus, person, note, reason)
  WITH n (i) AS (VALUES (1) UNION ALL SELECT i + 1 FROM n WHERE i < 100)
  SELECT i, 1, '', i, 'present', '2026-03-03T10:00:00+00:00', 1772532000,
    '2026-03-03T10:00:00+00:00', 1772532000, 1, '1.040', 1.04, 0, '21C', 21, 0.5, 'level', 'Kim',
    'reading ' || i, '' FROM n;
INSERT INTO reading_exclusion VALUES (1, 2, '2026-03-03T11:00:00+00:00', 1772535600, 1, 'bubbles');
)sql";

/// With rows in the tables that this version had.
inline void make_older(const std::string& path, int version) {
  const sqlite::Connection db = raw(path);
  for (int v = 0; v < version; ++v) db.run(schema_steps.at(static_cast<std::size_t>(v)));
  db.run(fmt::format("PRAGMA application_id = {}", application_id).c_str());
  db.run(fmt::format("PRAGMA user_version = {}", version).c_str());
  db.run("PRAGMA journal_mode = WAL");
  db.run(rows_since_1);
  if (version >= 2) db.run(rows_since_2);
  if (version >= 3) db.run(rows_since_3);
}

}  // namespace areo::notebook
