// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The notebook's tables, as steps from one version to the next; a step is never changed once
// released. STRICT tables refuse text in a number; what was read is append-only.
#include <array>

#include "areo/notebook/store.hpp"

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

// Version 3: batches with their readings and additions, all append-only; an amendment is a new
// reading that names the one it replaces. Instruments retire, calibrations may be due again.
inline constexpr const char* schema_3 = R"sql(
CREATE TABLE instrument_retired (
  instrument INTEGER PRIMARY KEY REFERENCES instrument (id),
  at TEXT NOT NULL, at_s INTEGER NOT NULL, reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
ALTER TABLE calibration ADD COLUMN due TEXT;
ALTER TABLE calibration ADD COLUMN due_s INTEGER;

CREATE TABLE batch (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  drink TEXT NOT NULL,
  culture TEXT NOT NULL CHECK (culture IN ('yeast', 'mixed', 'acetic')),
  vessel TEXT NOT NULL,
  volume_typed TEXT NOT NULL, volume_l REAL CHECK (volume_l > 0),
  extract TEXT NOT NULL, liquid TEXT NOT NULL,
  started_at TEXT NOT NULL, started_at_s INTEGER NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE TABLE batch_event (
  id INTEGER PRIMARY KEY,
  batch INTEGER NOT NULL REFERENCES batch (id),
  at TEXT NOT NULL, at_s INTEGER NOT NULL,
  what TEXT NOT NULL CHECK (what IN ('closed', 'reopened')),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX event_by_batch ON batch_event (batch, id);
CREATE TABLE batch_amendment (
  id INTEGER PRIMARY KEY,
  batch INTEGER NOT NULL REFERENCES batch (id),
  at TEXT NOT NULL, at_s INTEGER NOT NULL,
  field TEXT NOT NULL
    CHECK (field IN ('drink', 'culture', 'vessel', 'volume', 'extract', 'liquid', 'note')),
  value TEXT NOT NULL, volume_l REAL CHECK (volume_l > 0),
  reason TEXT NOT NULL CHECK (reason <> ''),
  CHECK (field <> 'culture' OR value IN ('yeast', 'mixed', 'acetic')),
  CHECK ((field = 'volume') = (volume_l IS NOT NULL))
) STRICT;
CREATE INDEX amendment_by_batch ON batch_amendment (batch, id);

CREATE TABLE reading (
  id INTEGER PRIMARY KEY,
  batch INTEGER NOT NULL REFERENCES batch (id),
  bottle TEXT NOT NULL,
  sample INTEGER NOT NULL REFERENCES reading (id),
  what TEXT NOT NULL CHECK (what IN ('original', 'present')),
  made_at TEXT NOT NULL, made_at_s INTEGER NOT NULL,
  noted_at TEXT NOT NULL, noted_at_s INTEGER NOT NULL,
  instrument INTEGER NOT NULL REFERENCES instrument (id),
  typed TEXT NOT NULL, indication REAL NOT NULL, half_width REAL NOT NULL,
  temperature_typed TEXT NOT NULL, temperature_c REAL, temperature_half_width_c REAL NOT NULL,
  thermometer INTEGER REFERENCES instrument (id),
  meniscus TEXT NOT NULL CHECK (meniscus IN ('level', 'top')),
  degassed INTEGER CHECK (degassed IN (0, 1)),
  person TEXT NOT NULL, note TEXT NOT NULL,
  amends INTEGER UNIQUE REFERENCES reading (id), reason TEXT NOT NULL,
  CHECK ((amends IS NULL) = (reason = ''))
) STRICT;
CREATE INDEX reading_by_batch ON reading (batch, made_at_s, id);
CREATE INDEX reading_by_sample ON reading (sample);
CREATE INDEX reading_by_instrument ON reading (instrument, person, sample) WHERE sample <> id;
CREATE TABLE reading_exclusion (
  id INTEGER PRIMARY KEY,
  reading INTEGER NOT NULL REFERENCES reading (id),
  at TEXT NOT NULL, at_s INTEGER NOT NULL,
  excluded INTEGER NOT NULL CHECK (excluded IN (0, 1)),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
CREATE INDEX exclusion_by_reading ON reading_exclusion (reading, id);

CREATE TABLE addition (
  id INTEGER PRIMARY KEY,
  batch INTEGER NOT NULL REFERENCES batch (id),
  bottle TEXT NOT NULL,
  what TEXT NOT NULL CHECK (what IN ('sugar', 'juice', 'water', 'salt', 'acid', 'batch')),
  made_at TEXT NOT NULL, made_at_s INTEGER NOT NULL,
  noted_at TEXT NOT NULL, noted_at_s INTEGER NOT NULL,
  amount_typed TEXT NOT NULL, mass_g REAL CHECK (mass_g > 0), volume_l REAL CHECK (volume_l > 0),
  extract_typed TEXT NOT NULL, extract_percent REAL, extract_half_width REAL,
  other INTEGER REFERENCES batch (id),
  into_typed TEXT NOT NULL, into_l REAL CHECK (into_l > 0),
  person TEXT NOT NULL, note TEXT NOT NULL,
  CHECK ((mass_g IS NULL) <> (volume_l IS NULL)),
  CHECK ((what = 'juice') = (extract_percent IS NOT NULL)),
  CHECK ((what = 'batch') = (other IS NOT NULL)), CHECK (other <> batch)
) STRICT;
CREATE INDEX addition_by_batch ON addition (batch, made_at_s, id);
CREATE TABLE addition_exclusion (
  id INTEGER PRIMARY KEY,
  addition INTEGER NOT NULL REFERENCES addition (id),
  at TEXT NOT NULL, at_s INTEGER NOT NULL,
  excluded INTEGER NOT NULL CHECK (excluded IN (0, 1)),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
CREATE INDEX exclusion_by_addition ON addition_exclusion (addition, id);

CREATE TRIGGER retired_is_never_changed BEFORE UPDATE ON instrument_retired
BEGIN SELECT RAISE (ABORT, 'what retired stays retired'); END;
CREATE TRIGGER retired_is_never_deleted BEFORE DELETE ON instrument_retired
BEGIN SELECT RAISE (ABORT, 'what retired stays retired'); END;
CREATE TRIGGER batch_is_never_changed BEFORE UPDATE ON batch
BEGIN SELECT RAISE (ABORT, 'a batch is never changed'); END;
CREATE TRIGGER batch_is_never_deleted BEFORE DELETE ON batch
BEGIN SELECT RAISE (ABORT, 'a batch is never deleted'); END;
CREATE TRIGGER batch_amendment_is_never_changed BEFORE UPDATE ON batch_amendment
BEGIN SELECT RAISE (ABORT, 'an amendment is never changed'); END;
CREATE TRIGGER batch_amendment_is_never_deleted BEFORE DELETE ON batch_amendment
BEGIN SELECT RAISE (ABORT, 'an amendment is never deleted'); END;
CREATE TRIGGER event_is_never_changed BEFORE UPDATE ON batch_event
BEGIN SELECT RAISE (ABORT, 'the history of a batch is never changed'); END;
CREATE TRIGGER event_is_never_deleted BEFORE DELETE ON batch_event
BEGIN SELECT RAISE (ABORT, 'the history of a batch is never deleted'); END;
CREATE TRIGGER reading_is_never_changed BEFORE UPDATE ON reading
BEGIN SELECT RAISE (ABORT, 'what was read is never changed'); END;
CREATE TRIGGER reading_is_never_deleted BEFORE DELETE ON reading
BEGIN SELECT RAISE (ABORT, 'what was read is never deleted'); END;
CREATE TRIGGER exclusion_is_never_changed BEFORE UPDATE ON reading_exclusion
BEGIN SELECT RAISE (ABORT, 'an exclusion is never changed'); END;
CREATE TRIGGER exclusion_is_never_deleted BEFORE DELETE ON reading_exclusion
BEGIN SELECT RAISE (ABORT, 'an exclusion is never deleted'); END;
CREATE TRIGGER addition_is_never_changed BEFORE UPDATE ON addition
BEGIN SELECT RAISE (ABORT, 'an addition is never changed'); END;
CREATE TRIGGER addition_is_never_deleted BEFORE DELETE ON addition
BEGIN SELECT RAISE (ABORT, 'an addition is never deleted'); END;
CREATE TRIGGER addition_exclusion_is_never_changed BEFORE UPDATE ON addition_exclusion
BEGIN SELECT RAISE (ABORT, 'an exclusion is never changed'); END;
CREATE TRIGGER addition_exclusion_is_never_deleted BEFORE DELETE ON addition_exclusion
BEGIN SELECT RAISE (ABORT, 'an exclusion is never deleted'); END;
-- REPLACE deletes without asking the triggers above.
CREATE TRIGGER reading_is_never_replaced BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading WHERE id = NEW.id OR amends = NEW.amends)
BEGIN SELECT RAISE (ABORT, 'what was read is never changed'); END;
CREATE TRIGGER addition_is_never_replaced BEFORE INSERT ON addition
WHEN EXISTS (SELECT 1 FROM addition WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'an addition is never changed'); END;
CREATE TRIGGER batch_is_never_replaced BEFORE INSERT ON batch
WHEN EXISTS (SELECT 1 FROM batch WHERE id = NEW.id OR name = NEW.name)
BEGIN SELECT RAISE (ABORT, 'a batch is never changed'); END;
CREATE TRIGGER instrument_is_never_replaced BEFORE INSERT ON instrument
WHEN EXISTS (SELECT 1 FROM instrument WHERE id = NEW.id OR name = NEW.name)
BEGIN SELECT RAISE (ABORT, 'an instrument is never changed'); END;
CREATE TRIGGER check_reading_is_never_replaced BEFORE INSERT ON check_reading
WHEN EXISTS (SELECT 1 FROM check_reading WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'what was read is never changed'); END;
CREATE TRIGGER calibration_is_never_replaced BEFORE INSERT ON calibration
WHEN EXISTS (SELECT 1 FROM calibration WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'a calibration is never changed'); END;
CREATE TRIGGER liquid_pair_is_never_replaced BEFORE INSERT ON liquid_pair
WHEN EXISTS (SELECT 1 FROM liquid_pair WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'what was read is never changed'); END;
CREATE TRIGGER liquid_pair_left_out_is_never_replaced BEFORE INSERT ON liquid_pair_left_out
WHEN EXISTS (SELECT 1 FROM liquid_pair_left_out WHERE pair = NEW.pair)
BEGIN SELECT RAISE (ABORT, 'what was left out is never changed'); END;
CREATE TRIGGER instrument_retired_is_never_replaced BEFORE INSERT ON instrument_retired
WHEN EXISTS (SELECT 1 FROM instrument_retired WHERE instrument = NEW.instrument)
BEGIN SELECT RAISE (ABORT, 'what retired stays retired'); END;
CREATE TRIGGER batch_event_is_never_replaced BEFORE INSERT ON batch_event
WHEN EXISTS (SELECT 1 FROM batch_event WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'the history of a batch is never changed'); END;
CREATE TRIGGER batch_amendment_is_never_replaced BEFORE INSERT ON batch_amendment
WHEN EXISTS (SELECT 1 FROM batch_amendment WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'an amendment is never changed'); END;
CREATE TRIGGER reading_exclusion_is_never_replaced BEFORE INSERT ON reading_exclusion
WHEN EXISTS (SELECT 1 FROM reading_exclusion WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'an exclusion is never changed'); END;
CREATE TRIGGER addition_exclusion_is_never_replaced BEFORE INSERT ON addition_exclusion
WHEN EXISTS (SELECT 1 FROM addition_exclusion WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'an exclusion is never changed'); END;
)sql";

// Whether the owner of an instrument stated from when on a calibration holds; nothing where an
// older areo noted it.
inline constexpr const char* schema_4 = R"sql(
ALTER TABLE calibration ADD COLUMN from_stated INTEGER CHECK (from_stated IN (0, 1));
)sql";

// What an instrument is marked with, and what decides how a surface pulls at its stem; the water
// and the balance of a check. Nothing where an older areo noted it, or nobody said.
inline constexpr const char* schema_5 = R"sql(
ALTER TABLE instrument ADD COLUMN maker TEXT;
ALTER TABLE instrument ADD COLUMN serial TEXT;
ALTER TABLE instrument ADD COLUMN stem_diameter_mm REAL CHECK (stem_diameter_mm > 0);
ALTER TABLE instrument ADD COLUMN mass_g REAL CHECK (mass_g > 0);
ALTER TABLE instrument ADD COLUMN made_for_mn_m REAL CHECK (made_for_mn_m > 0);
ALTER TABLE check_reading ADD COLUMN water TEXT CHECK (water IN ('pure', 'tap'));
ALTER TABLE check_reading ADD COLUMN balance TEXT;
ALTER TABLE check_reading ADD COLUMN apart INTEGER CHECK (apart IN (0, 1));
)sql";

// Version 6: the units and the order of dates that the owner is used to. A change is a new row.
inline constexpr const char* schema_6 = R"sql(
CREATE TABLE setting (
  id INTEGER PRIMARY KEY,
  at TEXT NOT NULL, at_s INTEGER NOT NULL,
  name TEXT NOT NULL, value TEXT NOT NULL,
  CHECK ((name = 'temperature' AND value IN ('', 'C', 'F'))
    OR (name = 'mass' AND value IN ('', 'g', 'oz', 'lb'))
    OR (name = 'volume' AND value IN ('', 'L', 'US gal', 'UK gal'))
    OR (name = 'pressure' AND value IN ('', 'bar', 'kPa', 'psi'))
    OR (name = 'dates' AND value IN ('', 'day first', 'month first')))
) STRICT;
CREATE TRIGGER setting_is_never_changed BEFORE UPDATE ON setting
BEGIN SELECT RAISE (ABORT, 'a setting is never changed, another one follows it'); END;
CREATE TRIGGER setting_is_never_deleted BEFORE DELETE ON setting
BEGIN SELECT RAISE (ABORT, 'a setting is never deleted, another one follows it'); END;
CREATE TRIGGER setting_is_never_replaced BEFORE INSERT ON setting
WHEN EXISTS (SELECT 1 FROM setting WHERE id = NEW.id)
BEGIN SELECT RAISE (ABORT, 'a setting is never changed, another one follows it'); END;
)sql";

inline constexpr std::array schema_steps{schema_1, schema_2, schema_3,
                                         schema_4, schema_5, schema_6};
inline constexpr int schema_version = notebook_version;
static_assert(schema_steps.size() == schema_version);

}  // namespace areo::notebook
