#pragma once
// Where a refractometer is read, with a hydrometer beside it: texts become results.
#include <string>
#include <vector>

#include "areo/measurement/refract.hpp"
#include "areo/wording/strength.hpp"
#include "bench.hpp"
#include "refract.hpp"

namespace areo::cli {

/// The texts of one sample; what is not given is empty.
struct TypedSample {
  std::string reading, temperature, original, original_temperature, gravity, gravity_temperature;
};

class Desk {
 public:
  Desk(const RefractOptions& options, const Session& session);

  [[nodiscard]] TakenRefraction refraction(const TypedSample& t);
  [[nodiscard]] measurement::Result unfermented(const TakenRefraction& taken,
                                                const std::vector<physics::Scale>& to) const;
  /// With its original reading.
  [[nodiscard]] measurement::AlcoholResult fermenting(const TypedSample& t);
  /// With a hydrometer reading of the same sample.
  [[nodiscard]] measurement::AlcoholResult paired(const TypedSample& t);
  /// @throws UsageError for what is about a hydrometer, if none was read
  void refuse_idle(const RefractOptions& options) const;
  [[nodiscard]] ferment::Culture culture() const { return culture_; }

 private:
  [[nodiscard]] measurement::HydrometerSample gravity(const std::string& reading,
                                                      const std::string& temperature,
                                                      std::vector<std::string>& notes);
  [[nodiscard]] measurement::OriginalSample original(const TypedSample& t,
                                                     std::vector<std::string>& notes);
  [[nodiscard]] bool by_refractometer(const std::string& text) const;

  Bench prism_, stem_;
  measurement::ExtractKind kind_;
  ferment::Culture culture_;
  bool named_prism_, stem_in_brix_;
};

/// What is said about results of fermenting() and paired().
[[nodiscard]] wording::StrengthWords fermenting_words(ferment::Culture culture);
[[nodiscard]] const wording::StrengthWords& paired_words();

}  // namespace areo::cli
