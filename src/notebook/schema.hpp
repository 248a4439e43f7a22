#pragma once
// The notebook's tables, as steps from one version to the next; a step is never changed once
// released. STRICT tables refuse text in a number; what was read is append-only.
#include <array>

namespace areo::notebook {

inline constexpr int application_id = 0x4152454F;  // "AREO", so that no other database is taken

inline constexpr const char* schema_1 = R"sql(
CREATE TABLE instrument (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  kind TEXT NOT NULL CHECK (kind IN ('hydrometer', 'thermometer')),
  scale_kind TEXT NOT NULL,
  scale_sample_c REAL, scale_water_c REAL, scale_modulus REAL,
  lo REAL NOT NULL, hi REAL NOT NULL, division REAL NOT NULL,
  glass_expansion_per_c REAL, meniscus_height REAL, tolerance REAL,
  added_at TEXT NOT NULL, note TEXT NOT NULL,
  CHECK (lo < hi AND division > 0)
) STRICT;

CREATE TABLE check_reading (
  id INTEGER PRIMARY KEY,
  instrument INTEGER NOT NULL REFERENCES instrument (id),
  method TEXT NOT NULL,
  made_at TEXT NOT NULL, made_at_s INTEGER NOT NULL,
  reading_typed TEXT NOT NULL, reading REAL NOT NULL, reading_half_width REAL NOT NULL,
  temperature_typed TEXT NOT NULL, temperature_c REAL, temperature_half_width_c REAL NOT NULL,
  meniscus TEXT NOT NULL CHECK (meniscus IN ('level', 'top')),
  solute_g REAL, water_g REAL, balance_division_g REAL,
  purity_lo REAL, purity_hi REAL, moisture_lo REAL, moisture_hi REAL,
  correction REAL, expanded REAL, coverage_factor REAL,
  pressure_pa REAL, pressure_half_width_pa REAL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX check_by_instrument ON check_reading (instrument, made_at_s, id);

CREATE TABLE calibration (
  id INTEGER PRIMARY KEY,
  instrument INTEGER NOT NULL REFERENCES instrument (id),
  in_force_from TEXT NOT NULL, in_force_from_s INTEGER NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX calibration_by_instrument ON calibration (instrument, in_force_from_s, id);

CREATE TABLE calibration_check (
  calibration INTEGER NOT NULL REFERENCES calibration (id),
  check_reading INTEGER NOT NULL REFERENCES check_reading (id),
  PRIMARY KEY (calibration, check_reading)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER check_is_never_changed BEFORE UPDATE ON check_reading
BEGIN SELECT RAISE (ABORT, 'what was read is never changed'); END;
CREATE TRIGGER check_is_never_deleted BEFORE DELETE ON check_reading
BEGIN SELECT RAISE (ABORT, 'what was read is never deleted'); END;
CREATE TRIGGER calibration_is_never_changed BEFORE UPDATE ON calibration
BEGIN SELECT RAISE (ABORT, 'a calibration is never changed'); END;
CREATE TRIGGER calibration_is_never_deleted BEFORE DELETE ON calibration
BEGIN SELECT RAISE (ABORT, 'a calibration is never deleted'); END;
)sql";

// Version 2: refractometers, and samples read with one and a hydrometer; the thermometer behind a
// check's temperature; instruments, and which checks make a calibration, are append-only as well. A
// rule about kinds cannot be changed in place, so the table is made anew; references to it go by
// its name and hold.
inline constexpr const char* schema_2 = R"sql(
CREATE TABLE instrument_2 (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  kind TEXT NOT NULL CHECK (kind IN ('hydrometer', 'refractometer', 'thermometer')),
  scale_kind TEXT NOT NULL,
  scale_sample_c REAL, scale_water_c REAL, scale_modulus REAL,
  lo REAL NOT NULL, hi REAL NOT NULL, division REAL NOT NULL,
  glass_expansion_per_c REAL, meniscus_height REAL, tolerance REAL,
  added_at TEXT NOT NULL, note TEXT NOT NULL,
  compensated INTEGER, also_gravity INTEGER,
  CHECK (kind <> 'refractometer' OR (compensated IN (0, 1) AND also_gravity IN (0, 1))),
  CHECK (lo < hi AND division > 0)
) STRICT;
INSERT INTO instrument_2 SELECT *, NULL, NULL FROM instrument;
DROP TABLE instrument;
ALTER TABLE instrument_2 RENAME TO instrument;
ALTER TABLE check_reading ADD COLUMN thermometer INTEGER REFERENCES instrument (id);

CREATE TABLE liquid_pair (
  id INTEGER PRIMARY KEY,
  liquid TEXT NOT NULL CHECK (liquid <> ''),
  made_at TEXT NOT NULL, made_at_s INTEGER NOT NULL,
  refractometer INTEGER NOT NULL REFERENCES instrument (id),
  refraction_typed TEXT NOT NULL, refraction REAL NOT NULL, refraction_half_width REAL NOT NULL,
  refraction_temperature_c REAL, refraction_temperature_typed TEXT NOT NULL,
  hydrometer INTEGER NOT NULL REFERENCES instrument (id),
  gravity_typed TEXT NOT NULL, gravity REAL NOT NULL, gravity_half_width REAL NOT NULL,
  gravity_temperature_c REAL, gravity_temperature_typed TEXT NOT NULL,
  meniscus TEXT NOT NULL CHECK (meniscus IN ('level', 'top')),
  thermometer INTEGER REFERENCES instrument (id), temperature_half_width_c REAL NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE TABLE liquid_pair_left_out (
  pair INTEGER PRIMARY KEY REFERENCES liquid_pair (id),
  at TEXT NOT NULL, reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
CREATE INDEX pair_by_liquid ON liquid_pair (liquid, made_at_s, id);

CREATE TRIGGER pair_is_never_changed BEFORE UPDATE ON liquid_pair
BEGIN SELECT RAISE (ABORT, 'what was read is never changed'); END;
CREATE TRIGGER pair_is_never_deleted BEFORE DELETE ON liquid_pair
BEGIN SELECT RAISE (ABORT, 'what was read is never deleted'); END;
CREATE TRIGGER left_out_is_never_changed BEFORE UPDATE ON liquid_pair_left_out
BEGIN SELECT RAISE (ABORT, 'what was left out is never changed'); END;
CREATE TRIGGER left_out_is_never_deleted BEFORE DELETE ON liquid_pair_left_out
BEGIN SELECT RAISE (ABORT, 'what was left out is never deleted'); END;
CREATE TRIGGER instrument_is_never_changed BEFORE UPDATE ON instrument
BEGIN SELECT RAISE (ABORT, 'an instrument is never changed'); END;
CREATE TRIGGER instrument_is_never_deleted BEFORE DELETE ON instrument
BEGIN SELECT RAISE (ABORT, 'an instrument is never deleted'); END;
CREATE TRIGGER calibration_check_is_never_changed BEFORE UPDATE ON calibration_check
BEGIN SELECT RAISE (ABORT, 'a calibration is never changed'); END;
CREATE TRIGGER calibration_check_is_never_deleted BEFORE DELETE ON calibration_check
BEGIN SELECT RAISE (ABORT, 'a calibration is never deleted'); END;
)sql";

inline constexpr std::array schema_steps{schema_1, schema_2};
inline constexpr int schema_version = static_cast<int>(schema_steps.size());

}  // namespace areo::notebook
