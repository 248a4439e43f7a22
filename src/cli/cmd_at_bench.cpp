// SPDX-License-Identifier: GPL-3.0-or-later
// areo bench: readings one after the other with wet hands. One question at a time; what was
// accepted is in the notebook before the next question.
#include <unistd.h>

#include <cstdio>
#include <iostream>
#include <memory>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/entry/guided_readings.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/failure.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "screen.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

// Nothing at the end of the input.
std::optional<std::string> ask(const std::string& question) {
  std::fputs((text::printable(question) + "> ").c_str(), stdout);
  std::fflush(stdout);
  std::string text;
  if (!std::getline(std::cin, text)) {
    std::fputs("\n", stdout);
    return std::nullopt;
  }
  const auto first = text.find_first_not_of(" \t\r");
  if (isatty(STDIN_FILENO) == 0) line(text);  // a log shows what was answered
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

int at_bench(const entry::GuidedReadings::Start& start, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  entry::GuidedReadings readings{book, start, line};
  bool refused = false;
  readings.greet();
  while (!readings.over()) {
    const auto text = ask(readings.question());
    if (!text) break;
    try {
      readings.answer(*text);
    } catch (const Error& e) {
      refused = true;
      const std::string failure = wording::failure_text(e, screen_columns());
      std::fwrite(failure.data(), 1, failure.size(), stdout);
    }
  }
  line(readings.summary());
  // From a pipe nobody could answer: that something was refused must not go unseen.
  return (refused || readings.left_doubtful()) && isatty(STDIN_FILENO) == 0 ? said_no : done;
}

}  // namespace

void setup_at_bench(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<entry::GuidedReadings::Start>();
  auto c = app.add_subcommand("bench", "note one reading after the other, guided");
  c.add_option("batch", o->batch, "the batch").required();
  c.add_option("--instrument", o->typed.instrument,
               "what you read; the hydrometer, if the notebook has only one")
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
      entry::GuidedReadings::Start start = *o;
      start.full = session.full;
      return at_bench(start, session);
    };
  });
  c.footer(
      "It asks for a reading and its temperature, shows what follows, and writes each accepted\n"
      "reading at once. Anything far from what is expected it asks about twice. Ctrl-C loses only "
      "the line that is being typed.");
}

}  // namespace areo::cli
