// SPDX-License-Identifier: GPL-3.0-or-later
// A second face: answers and documents without the command line, from what the library gives to any
// page or program. Words come in a fixed order, as nothing here knows options:
//
//   second_face NOTEBOOK correct INSTRUMENT READING TEMPERATURE
//   second_face NOTEBOOK alcohol INSTRUMENT ORIGINAL PRESENT TEMPERATURE
//   second_face NOTEBOOK card INSTRUMENT DAY html|json
//   second_face NOTEBOOK report BATCH LIMIT html|json
#include <cstdlib>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/document/document.hpp"
#include "areo/entry/corrected.hpp"
#include "areo/entry/strength.hpp"
#include "areo/paper/card.hpp"
#include "areo/paper/report.hpp"
#include "areo/wording/failure.hpp"
#include "areo/wording/limit.hpp"
#include "areo/wording/result_json.hpp"
#include "areo/wording/strength_words.hpp"
#include "areo/wording/trend_json.hpp"

namespace areo {
namespace {

using Words = std::vector<std::string>;

void print_line(const std::string& text) { std::cout << text << '\n'; }

class Face {
 public:
  explicit Face(std::string notebook) : notebook_{std::move(notebook)} {}

  void correct(const std::string& instrument, const std::string& reading,
               const std::string& temperature) const {
    entry::ReadingResolver with = resolver(instrument);
    const entry::Corrected c = entry::corrected(with,
                                                {.reading = reading,
                                                 .temperature = temperature,
                                                 .original = "",
                                                 .original_temperature = ""},
                                                {});
    const wording::ReportedResult reported{c.result, {}, printed_digits};
    print_line(wording::json_line(reported));
  }

  void alcohol(const std::string& instrument, const std::string& original,
               const std::string& present, const std::string& temperature) const {
    entry::ReadingResolver with = resolver(instrument);
    const ferment::Culture culture = ferment::Culture::yeast;
    const measurement::AlcoholResult a =
        entry::strength(entry::taken_original(with.take(original, temperature)),
                        with.take(present, temperature), culture);
    const wording::StrengthWords words = wording::gravity_words(false, culture);
    const wording::ReportedResult reported{
        a.result, {}, printed_digits, wording::reporting_plan(a, words, true)};
    print_line(wording::strength_json(a, words, reported));
  }

  void card(const std::string& instrument, const std::string& day, bool html) const {
    const notebook::Notebook book = open();
    const paper::Card card = paper::card_of(
        paper::card_subject(book, book.instrument(instrument), past_day_end_from_text(day, now())),
        {}, entry::extract_from_word(""));
    if (!html) {
      print_line(paper::card_json(card));
      paper::each_json(card.grid, print_line);
      return;
    }
    const paper::GridLayout layout = paper::grid_layout(card.grid, printed_digits);
    document::SheetHead head = paper::grid_head(card.grid, layout, paper::Shape::for_people);
    head.setup.paper = document::Paper::a4;
    paper::write_rows(card.grid, layout, paper::Shape::for_people,
                      *document::sheet_writer(document::SheetFormat::html, std::cout, head));
  }

  void report(const std::string& batch_name, const std::string& limit, bool html) const {
    const notebook::Notebook book = open();
    batch::Batch batch{book, batch_name};
    const paper::ReportData m = paper::material_of(
        book, batch, "", {}, wording::limit_from_text(limit, ""), printed_digits);
    if (html) {
      std::cout << document::page_of(paper::full_report(m, now()), document::Paper::a4);
      return;
    }
    for (const paper::BottleHistory& a : m.accounts)
      wording::each_trend_json(batch, a.bottle, a.history, m.expected, a.passing, print_line);
  }

 private:
  static constexpr bool printed_digits = false;  // and not further ones

  [[nodiscard]] notebook::Notebook open() const {
    return notebook::Notebook{notebook_, notebook::Open::read};
  }
  [[nodiscard]] entry::ReadingResolver resolver(const std::string& instrument) const {
    entry::ReadingOptions options;
    options.instrument = instrument;
    return {std::make_shared<entry::NotebookOnDemand>([this] { return open(); }), options};
  }
  std::string notebook_;
};

bool is_html(const std::string& word) {
  if (word != "html" && word != "json") throw std::invalid_argument{word + " is no format"};
  return word == "html";
}

void answer(const Words& w) {
  const auto asked = [&](const char* what, std::size_t words) {
    return w.size() == words && w[1] == what;
  };
  if (asked("correct", 5))
    Face{w[0]}.correct(w[2], w[3], w[4]);
  else if (asked("alcohol", 6))
    Face{w[0]}.alcohol(w[2], w[3], w[4], w[5]);
  else if (asked("card", 5))
    Face{w[0]}.card(w[2], w[3], is_html(w[4]));
  else if (asked("report", 5))
    Face{w[0]}.report(w[2], w[3], is_html(w[4]));
  else
    throw std::invalid_argument{"the first lines of main.cpp say what can be asked"};
}

}  // namespace
}  // namespace areo

int main(int argc, char** argv) {
  try {
    areo::answer({argv + 1, argv + argc});
    return EXIT_SUCCESS;
  } catch (const areo::Error& e) {
    std::cerr << areo::wording::failure_json(e) << '\n';
  } catch (const std::exception& e) {
    std::cerr << e.what() << '\n';
  }
  return EXIT_FAILURE;
}
