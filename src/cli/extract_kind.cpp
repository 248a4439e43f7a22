#include "extract_kind.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/notebook/recompute.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Word {
  const char* word;
  physics::ExtractOptics optics;
};
constexpr std::array words{
    Word{"mixed", physics::unknown_extract_optics}, Word{"sucrose", physics::sucrose_optics},
    Word{"glucose", physics::glucose_optics},       Word{"fructose", physics::fructose_optics},
    Word{"invert", physics::invert_sugar_optics},   Word{"maltose", physics::maltose_optics},
    Word{"malt", physics::malt_extract_optics}};

}  // namespace

void add_extract_options(CLI::App& c, ExtractOptions& o) {
  c.add_option("--extract", o.extract,
               "what is dissolved: mixed, sucrose, glucose, fructose, invert, maltose or malt; "
               "mixed unless stated, refracting as sugar does within 3 %")
      ->type_name("WORD");
  c.add_option("--liquid", o.liquid, "a liquid with pairs of readings in the notebook")
      ->type_name("NAME");
}

measurement::ExtractKind extract_kind(const ExtractOptions& o, Bench& bench) {
  refuse_together(!o.extract.empty(), "--extract", !o.liquid.empty(), "--liquid",
                  "the liquid's own factor says what its extract does: leave --extract out");
  if (!o.liquid.empty()) {
    const auto factor = notebook::liquid_factor(bench.notebook(), o.liquid);
    return {o.liquid, factor.optics, "pairs of readings of " + o.liquid + " in the notebook",
            factor.remarks};
  }
  const std::string word = o.extract.empty() ? "mixed" : o.extract;
  const auto* found =
      std::find_if(words.begin(), words.end(), [&](const Word& w) { return w.word == word; });
  if (found != words.end()) return {word, found->optics, "[crc102], [simmonds1919]", {}};
  std::vector<std::string> known;
  known.reserve(words.size());
  for (const Word& w : words) known.emplace_back(w.word);
  const std::string near = nearest(word, known);
  throw ParseError{fmt::format("'{}' is no kind of extract", word), word, 0, word.size(),
                   near.empty() ? fmt::format("one of {}", fmt::join(known, ", "))
                                : fmt::format("did you mean '{}'?", near)};
}

}  // namespace areo::cli
