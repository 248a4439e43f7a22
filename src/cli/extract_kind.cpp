#include "extract_kind.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/notebook/recompute.hpp"
#include "usage.hpp"

namespace areo::cli {
void add_extract_options(const Command& c, ExtractOptions& o) {
  c.add_option("--extract", o.extract,
               "what is dissolved: mixed, sucrose, glucose, fructose, invert, maltose or malt; "
               "mixed unless stated, refracting as sugar does within 3 %")
      .type_name("WORD");
  c.add_option("--liquid", o.liquid, "a liquid with pairs of readings in the notebook")
      .type_name("NAME");
}

measurement::ExtractKind extract_kind(const ExtractOptions& o, Bench& bench) {
  refuse_together(!o.extract.empty(), "--extract", !o.liquid.empty(), "--liquid",
                  "the liquid's own factor says what its extract does: leave --extract out");
  if (!o.liquid.empty()) {
    const auto factor = notebook::liquid_factor(bench.notebook(), o.liquid);
    return {o.liquid, factor.optics, "pairs of readings of " + o.liquid + " in the notebook",
            factor.remarks};
  }
  return extract_from_word(o.extract);
}

measurement::ExtractKind extract_from_word(const std::string& typed) {
  const std::string word = typed.empty() ? "mixed" : typed;
  if (auto kind = measurement::extract_kind_from_word(word)) return *kind;
  const std::vector<std::string> known = measurement::extract_words();
  const std::string near = nearest(word, known);
  throw ParseError{fmt::format("'{}' is no kind of extract", word), word, 0, word.size(),
                   near.empty() ? fmt::format("one of {}", fmt::join(known, ", "))
                                : fmt::format("did you mean '{}'?", near)};
}

}  // namespace areo::cli
