// areo bench: readings one after the other with wet hands. One question at a time; what was
// accepted is in the notebook before the next question.
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdio>
#include <iostream>
#include <memory>
#include <optional>
#include <set>
#include <sstream>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/failure.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "note_reading.hpp"
#include "screen.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using notebook::Id;

struct Options {
  std::string batch;
  TypedReading typed;
  bool yes = false;
};

constexpr std::array help{
    "a reading: 1.020; repeats of one sample: 1.020 1.021 1.020",
    "bottle B        the next readings are of bottle B; bottle - is the batch as a whole",
    "instrument NAME and thermometer NAME say what you read",
    "original        the next reading is an original gravity",
    "top, level      where you read: at the top of the meniscus, or level with the surface",
    "degassed yes    or no: whether the bubbles were stirred out",
    "when DATE       the next readings were made then, not now; when now",
    "note TEXT       goes with the next reading",
    "undo            takes back the last reading; it stays in the notebook, excluded",
    "done            ends; so does the end of the input"};

class AtBench {
 public:
  AtBench(notebook::Notebook& book, const Options& o, const Session& session)
      : book_{&book}, session_{&session}, name_{o.batch}, yes_{o.yes}, next_{o.typed} {
    require_open(book.batch(name_), book);
  }

  int run() {
    greet();
    while (!over_) {
      try {
        if (const auto text = ask(prompt())) obey(*text);
      } catch (const Error& e) {
        refuse(e);
      }
    }
    line(fmt::format("{} noted, {} taken back; areo batch show {}", counted(noted_),
                     counted(undone_), shell_word(name_)));
    // From a pipe nobody could answer: that something was refused must not go unseen.
    return refused_ && isatty(STDIN_FILENO) == 0 ? said_no : done;
  }

 private:
  static std::string counted(int n) { return fmt::format("{} reading{}", n, n == 1 ? "" : "s"); }

  void greet() {
    Batch batch{*book_, name_};
    line(wording::batch_text(batch.record()));
    if (!batch.samples().empty()) {
      const Point last = batch.point(batch.samples().back());
      line(fmt::format("  last: {}, {}", wording::sample_text(batch, last.sample),
                       last.sample.at().date()));
    }
    line("  type what it shows, help for more, done to end");
  }

  [[nodiscard]] std::string prompt() const {
    std::string text = name_;
    if (!next_.bottle.empty()) text += ", bottle " + next_.bottle;
    return text + (next_.original ? " shows, original" : " shows");
  }

  // Nothing at the end of the input, which ends everything.
  std::optional<std::string> ask(const std::string& question) {
    std::fputs((text::printable(question) + "> ").c_str(), stdout);
    std::fflush(stdout);
    std::string text;
    if (!std::getline(std::cin, text)) {
      over_ = true;
      std::fputs("\n", stdout);
      return std::nullopt;
    }
    const auto first = text.find_first_not_of(" \t\r");
    if (isatty(STDIN_FILENO) == 0) line(text);  // a log shows what was answered
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
  }

  void obey(const std::string& text) {
    const std::size_t space = std::min(text.find(' '), text.size());
    const std::string word = text.substr(0, space);
    const std::string rest = space < text.size() ? text.substr(space + 1) : "";
    if (word.empty()) return;
    if (word == "done")
      over_ = true;
    else if (word == "help")
      for (const char* of_help : help) line(fmt::format("  {}", of_help));
    else if (word == "undo")
      undo();
    else if (word == "bottle")
      next_.bottle = rest == "-" ? "" : rest;
    else if (word == "instrument")
      next_.instrument = instrument_for(rest, *book_).name();
    else if (word == "thermometer")
      next_.thermometer = rest == "-" ? "" : book_->instrument(rest).name();
    else if (word == "original")
      next_.original = !next_.original;
    else if (word == "top" || word == "level")
      next_.top = word == "top";
    else if (word == "degassed") {
      (void)degassed_from_text(rest);
      next_.degassed = rest;
    } else if (word == "when")
      next_.made_at = rest == "now" ? "" : past_moment_from_text(rest, now()).text();
    else if (word == "note")
      next_.note = rest;
    else if (std::isalpha(static_cast<unsigned char>(word[0])) != 0)
      throw ParseError{fmt::format("'{}' is no word here", word), text, 0, word.size(),
                       "help shows them; done ends"};
    else
      take(text);
  }

  void take(const std::string& text) {
    TypedReading typed = next_;
    std::istringstream words{text};
    for (std::string w; words >> w;) typed.shown.push_back(w);
    (void)note_reading(typed, book_->batch(name_), *book_);  // refused before more is asked
    const auto temperature = ask_temperature();
    if (!temperature) return;
    if (*temperature == "-")
      typed.temperature.clear();
    else if (!temperature->empty())
      typed.temperature = *temperature;
    if (typed.temperature.empty()) typed.thermometer.clear();
    const NotedReading noted = note_reading(typed, book_->batch(name_), *book_);
    const bool doubtful = show(noted) && !yes_;
    const auto answer = ask(doubtful ? all_the_same : "note it? Enter for yes, n for no");
    if (!answer) return;
    if (doubtful ? !says_yes(*answer) : !answer->empty() && !says_yes(*answer)) {
      line("  not noted");
      refused_ = refused_ || doubtful;
      return;
    }
    const auto ids = book_->add(noted.records);
    accepted_.push_back(ids);
    noted_ += static_cast<int>(ids.size());
    line(fmt::format("  noted as reading {}", fmt::join(ids, ", ")));
    next_.temperature = typed.temperature;
    next_.note.clear();
    next_.original = false;
  }

  // Until it is one, "-" or empty: a slip here must not cost the reading.
  std::optional<std::string> ask_temperature() {
    for (;;) {
      auto text =
          ask(next_.temperature.empty()
                  ? "temperature, Enter if unknown"
                  : fmt::format("temperature, Enter for {}, - if unknown", next_.temperature));
      if (!text || text->empty() || *text == "-") return text;
      try {
        (void)text::sample_celsius_from_text(*text, next_.original);
        return text;
      } catch (const Error& e) {
        refuse(e);
      }
    }
  }

  // What follows from it, and whether it is far from what is expected.
  bool show(const NotedReading& noted) {
    Batch batch{*book_, name_};
    const auto doubts = batch::Expectation{batch}.of(noted.records);
    tell(batch, noted, doubts.empty());
    for (const std::string& d : doubts) line("  look again: " + d);
    return !doubts.empty();
  }

  void tell(Batch& batch, const NotedReading& noted, bool expected) {
    std::vector<Point> points{batch.preview(noted.records)};
    (void)wording::note_corrections(batch, points);
    const Point& point = points.front();
    for (const std::string& e : noted.echo) line("  " + e);
    line("  " + wording::sample_text(batch, point.sample));
    if (!point.computed()) {
      line("  nothing can be computed: " + point.refused);
      return;
    }
    line(fmt::format("  gravity 20/20  {}",
                     text::value_text(point.gravity().value, "", session_->full)));
    if (point.drink) line("  alcohol        " + wording::strength_text(point, session_->full));
    if (const std::string change = wording::change_text(batch, point); !change.empty())
      line("  " + change);
    for (const std::string& n : point.result().notes)
      if (told_.insert(n).second) line("  note: " + n);
    if (expected && wording::jumped_up(batch, point))
      line("  it cannot rise by itself: bubbles, an addition, or another bottle?");
  }

  void undo() {
    if (accepted_.empty()) {
      line("  nothing to undo");
      return;
    }
    for (const Id id : accepted_.back())
      book_->exclude_reading(id, {now(), true, "taken back at the bench"});
    undone_ += static_cast<int>(accepted_.back().size());
    line(fmt::format("  taken back: reading {}", fmt::join(accepted_.back(), ", ")));
    accepted_.pop_back();
  }

  void refuse(const Error& e) {
    refused_ = true;
    const std::string text = wording::failure_text(e, screen_columns());
    std::fwrite(text.data(), 1, text.size(), stdout);
  }

  notebook::Notebook* book_;
  const Session* session_;
  std::string name_;
  bool yes_;                               // no second question about what is doubtful
  TypedReading next_;                      // what goes on from reading to reading
  std::vector<std::vector<Id>> accepted_;  // not yet taken back
  std::set<std::string> told_;             // notes, each said once
  int noted_ = 0, undone_ = 0;
  bool over_ = false, refused_ = false;
};

}  // namespace

void setup_at_bench(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("bench", "note one reading after the other, guided");
  c.add_option("batch", o->batch, "the batch").required();
  c.add_option("--instrument", o->typed.instrument,
               "what you read; the hydrometer, if the notebook has one only")
      .type_name("NAME");
  c.add_option("--thermometer", o->typed.thermometer, "thermometer in the notebook")
      .type_name("NAME");
  c.add_option("--bottle", o->typed.bottle, "start with this bottle").type_name("NAME");
  c.add_option("--by", o->typed.person, "who reads").type_name("NAME");
  add_insist_option(c, o->yes);
  c.callback([=, &session, &run] {
    run = [=, &session] {
      refuse_together(session.json, "--json", true, "a bench session",
                      "it talks to a person: areo reading add has --json");
      notebook::Notebook book = open_notebook(session);
      return AtBench{book, *o, session}.run();
    };
  });
  c.footer(
      "It asks for a reading and its temperature, shows what follows, and writes each accepted\n"
      "reading at once. What is far from what is expected it asks about twice. Ctrl-C loses what "
      "is being typed and nothing else.");
}

}  // namespace areo::cli
