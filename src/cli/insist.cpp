// SPDX-License-Identifier: GPL-3.0-or-later
#include "insist.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include <cstdio>
#include <iostream>
#include <string>

#include "areo/core/error.hpp"
#include "areo/entry/guided_readings.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"

namespace areo::cli {

void add_insist_option(const Command& command, bool& yes) {
  command.add_flag("--yes", yes, "note it without a question, however far from what is expected");
}

bool insisted(const batch::Doubts& doubts, bool yes, const Session& session) {
  if (doubts.empty() || yes) return true;
  if (session.json || isatty(STDIN_FILENO) == 0)
    throw Error{Errc::inconsistent, wording::doubts_text(doubts),
                "nothing is noted: look again, and if it is so, say --yes"};
  for (const std::string& d : doubts) error_line("look again: " + d);
  fmt::print(stderr, "{}> ", entry::all_the_same);
  std::string answer;
  std::getline(std::cin, answer);
  if (entry::says_yes(answer)) return true;
  fmt::print(stderr, "not noted\n");
  return false;
}

}  // namespace areo::cli
