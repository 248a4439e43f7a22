#include "desk.hpp"

#include <fmt/format.h>

#include <utility>

#include "areo/instruments/bare_number.hpp"
#include "areo/text/parse_refraction.hpp"
#include "failure.hpp"

namespace areo::cli {

using measurement::AlcoholResult;

namespace {

// The hydrometer that original gravities, and gravities of the same sample, were read with.
ReadingOptions hydrometer_options(const RefractOptions& o) {
  ReadingOptions with = o.with;
  with.instrument = o.hydrometer;
  with.refractometer = false;
  with.division.clear();
  if (with.instrument.empty() && with.thermometer.empty()) {
    with.at.clear();
    with.interpolate = false;
  }
  return with;
}

void prepend(AlcoholResult& a, const std::vector<std::string>& echoes) {
  a.result.notes.insert(a.result.notes.begin(), echoes.begin(), echoes.end());
}

// One temperature for both readings is a claim that the reader should see.
void note_same_temperature(const TypedSample& t, const std::string& own, const char* of,
                           std::vector<std::string>& notes) {
  if (own == t.temperature && !own.empty())
    notes.push_back(fmt::format("{} read at {}, as the present refraction", of, own));
}

}  // namespace

Desk::Desk(const RefractOptions& o, const Session& session)
    : prism_{session, o.with},
      stem_{session, hydrometer_options(o)},
      kind_{extract_kind(o.extract, prism_)},
      culture_{wording::culture_from_text(o.culture)},
      named_prism_{!o.with.instrument.empty()},
      stem_in_brix_{!o.hydrometer.empty() &&
                    stem_.hydrometer(o.hydrometer).hydrometer.scale == physics::brix_20} {}

TakenRefraction Desk::refraction(const TypedSample& t) {
  return prism_.take_refraction(t.reading, t.temperature);
}

measurement::HydrometerSample Desk::gravity(const std::string& reading,
                                            const std::string& temperature,
                                            std::vector<std::string>& notes) {
  const TakenReading taken = stem_.take(reading, temperature);
  if (!taken.echo.empty()) notes.push_back("gravity " + taken.echo);
  return {taken.instrument, taken.reading};
}

measurement::OriginalSample Desk::original(const TypedSample& t, std::vector<std::string>& notes) {
  if (!by_refractometer(t.original)) return gravity(t.original, t.original_temperature, notes);
  const TakenRefraction taken = prism_.take_refraction(t.original, t.original_temperature);
  // Whether it is compensated was said of the present reading already.
  if (!taken.echo.empty() && !taken.echo.starts_with("taken as"))
    notes.push_back("original " + taken.echo);
  return taken.sample;
}

void Desk::refuse_idle(const RefractOptions& o) const {
  const bool read = !o.gravity.empty() || (!o.original.empty() && !by_refractometer(o.original));
  for (const auto& [given, name] :
       {std::pair{!o.hydrometer.empty(), "--hydrometer"}, std::pair{o.with.top, "--top"}})
    if (given && !read)
      throw UsageError{
          fmt::format("{} without a hydrometer reading", name),
          fmt::format("give --gravity, or --original as 1.050; or leave {} out", name)};
}

// "12.4Bx" and "1.3512nD" were read with the refractometer, "1.050" and "12.4P" with a
// hydrometer. A bare number that is no gravity is on the scale of a named refractometer.
bool Desk::by_refractometer(const std::string& text) const {
  const text::TypedNumber n = text::number_with_unit(text, "an original reading");
  if (text::says_brix(n.unit)) return !stem_in_brix_;
  if (text::says_index(n.unit)) return true;
  return n.unit.empty() && named_prism_ && !instruments::may_be_gravity(n.value);
}

AlcoholResult Desk::fermenting(const TypedSample& t) {
  const TakenRefraction present = refraction(t);
  std::vector<std::string> echoes;
  note_same_temperature(t, t.original_temperature, "original", echoes);
  if (!present.echo.empty()) echoes.push_back(present.echo);
  const auto first = original(t, echoes);
  AlcoholResult a = measurement::refract_fermenting(present.sample, first, kind_, culture_);
  prepend(a, echoes);
  return a;
}

AlcoholResult Desk::paired(const TypedSample& t) {
  const TakenRefraction taken = refraction(t);
  std::vector<std::string> echoes;
  if (!taken.echo.empty()) echoes.push_back(taken.echo);
  note_same_temperature(t, t.gravity_temperature, "gravity", echoes);
  const auto stem = gravity(t.gravity, t.gravity_temperature, echoes);
  AlcoholResult a = measurement::refract_with_hydrometer(taken.sample, stem, kind_);
  prepend(a, echoes);
  return a;
}

measurement::Result Desk::unfermented(const TakenRefraction& taken,
                                      const std::vector<physics::Scale>& to) const {
  measurement::Result r = measurement::refract(taken.sample, kind_, to);
  if (!taken.echo.empty()) r.notes.insert(r.notes.begin(), taken.echo);
  return r;
}

wording::StrengthWords fermenting_words(ferment::Culture culture) {
  wording::StrengthWords words{
      "",
      "no measurable change",
      {"sg_20_20_original", "sg_20_20_present"},
      "the present reading is above the original one",
      {"the two readings swapped or misread; a wrong temperature; sugar or juice added since;",
       "a prism that was not clean, or not zeroed in water"},
      "clean the prism, check it in water and read a settled drop again"};
  words.basis = wording::basis_text(culture);
  return words;
}

const wording::StrengthWords& paired_words() {
  static const wording::StrengthWords words{
      "",
      "no measurable alcohol",
      {"sg_20_20_present", "real_extract_percent"},
      "density and refraction of the sample contradict each other",
      {"the readings are of two samples; the refractometer not zeroed in water; bubbles on the",
       "hydrometer; a wrong temperature; an extract that refracts less than was stated"},
      "read both again from one degassed, settled sample, and check both in water"};
  return words;
}

}  // namespace areo::cli
