// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Where a refractometer is read, with a hydrometer beside it: texts become results.
#include <string>
#include <vector>

#include "areo/entry/reading_resolver.hpp"
#include "areo/ferment/culture.hpp"
#include "areo/measurement/refract.hpp"

namespace areo::entry {

/// The texts of one sample; what is not given is empty.
struct TypedSample {
  std::string reading, temperature, original, original_temperature, gravity, gravity_temperature;
};

/// With what samples are read, as typed; what is not given is empty.
struct RefractionTools {
  ReadingOptions with;     ///< the refractometer
  std::string hydrometer;  ///< in the notebook, beside it
  ExtractWords extract;
  std::string culture;
};

class RefractionResolver {
 public:
  /// @param prism  of tools.with; the hydrometer is looked up in its notebook
  /// @throws as ReadingResolver; ParseError for words that are unknown
  RefractionResolver(const RefractionTools& tools, ReadingResolver prism);

  [[nodiscard]] TakenRefraction refraction(const TypedSample& t);
  [[nodiscard]] measurement::Result unfermented(const TakenRefraction& taken,
                                                const std::vector<physics::Scale>& to) const;
  /// With its original reading.
  [[nodiscard]] measurement::AlcoholResult fermenting(const TypedSample& t);
  /// With a hydrometer reading of the same sample.
  [[nodiscard]] measurement::AlcoholResult paired(const TypedSample& t);
  /// "12.4Bx" and "1.3512nD" were read with the refractometer, "1.050" and "12.4P" with a
  /// hydrometer. A bare number that is no gravity is on the scale of a named refractometer.
  [[nodiscard]] bool by_refractometer(const std::string& text) const;
  [[nodiscard]] ferment::Culture culture() const { return culture_; }

 private:
  [[nodiscard]] measurement::HydrometerSample gravity(const std::string& reading,
                                                      const std::string& temperature,
                                                      std::vector<std::string>& notes);
  [[nodiscard]] measurement::OriginalSample original(const TypedSample& t,
                                                     std::vector<std::string>& notes);

  ReadingResolver prism_, stem_;
  measurement::ExtractKind kind_;
  ferment::Culture culture_;
  bool named_prism_, stem_in_brix_;
};

}  // namespace areo::entry
