// SPDX-License-Identifier: GPL-3.0-or-later
#include "usage.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string_view>
#include <vector>

#include "areo/core/nearest.hpp"
#include "command_line.hpp"

namespace areo::cli {
namespace {

// The command that was chosen: "areo", "areo calibrate", "areo calibrate water".
struct Chosen {
  const CLI::App* command;
  std::string call;
};
Chosen chosen_command(const CLI::App& app) {
  Chosen c{&app, app.get_name()};
  while (!c.command->get_subcommands().empty()) {
    c.command = c.command->get_subcommands().front();
    c.call += " " + c.command->get_name();
  }
  return c;
}

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known,
                         const std::string& call) {
  const std::string near = nearest(word, known);
  if (near == word) return "options stand in front of --; behind it all is taken as values";
  return near.empty() ? call + " --help lists them" : fmt::format("did you mean '{}'?", near);
}

// Names of the commands below this one; none for a command that does something by itself.
std::vector<std::string> commands_below(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* c : app.get_subcommands({})) names.push_back(c->get_name());
  return names;
}

// The options of a command and of those above it, which it takes too.
std::vector<std::string> option_names(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::App* a = &command; a != nullptr; a = a->get_parent())
    for (const CLI::Option* o : a->get_options())
      for (const std::string& name : o->get_lnames()) names.push_back("--" + name);
  return names;
}

// "-5P" is a value.
bool is_option(const std::string& word) {
  constexpr std::string_view number = "0123456789.,";
  return word.size() > 1 && word.front() == '-' && number.find(word[1]) == std::string_view::npos;
}

// A word that nothing in the tree took: a command, an option, or a value too many.
UsageError stray_word(const Chosen& c, const std::vector<std::string>& stray) {
  const std::vector<std::string> commands = commands_below(*c.command);
  const auto option = std::find_if(stray.begin(), stray.end(), is_option);
  const auto plain = std::find_if_not(stray.begin(), stray.end(), is_option);
  // What follows an unknown option may be its value, so that it is no command.
  const bool command_first = plain != stray.end() && plain < option;
  if (!commands.empty() && command_first)
    return {fmt::format("'{}' is not a command", *plain), did_you_mean(*plain, commands, c.call)};
  if (option != stray.end())
    return {fmt::format("'{}' is not an option of {}", *option, c.call),
            did_you_mean(*option, option_names(*c.command), c.call)};
  return {fmt::format("one value too many: '{}'", stray.front()),
          c.call + " --help shows what it takes"};
}

// "kind: honey not in {sugar,salt}" in words.
std::string no_member(const std::string& text) {
  constexpr std::string_view mark = " not in {";
  const auto at = text.find(mark);
  if (at == std::string::npos || !text.ends_with('}')) return text;
  std::string out = text.substr(0, at) + " is none of ";
  for (const char c : text.substr(at + mark.size(), text.size() - at - mark.size() - 1))
    out += c == ',' ? ", " : std::string{c};
  return out;
}

// "Could not convert: --trials = ten" in words.
std::string no_number(const std::string& text) {
  constexpr std::string_view mark = "Could not convert: ", middle = " = ";
  const auto at = text.find(middle);
  if (!text.starts_with(mark) || at == std::string::npos) return text;
  return fmt::format("{} takes a whole number, not '{}'",
                     text.substr(mark.size(), at - mark.size()), text.substr(at + middle.size()));
}

// The words of the library become those of a person where they differ.
std::string message(const CLI::ParseError& e) {
  std::string text = e.what();
  const std::string first = text.substr(0, text.find_first_of(": "));
  if (dynamic_cast<const CLI::ExcludesError*>(&e) != nullptr)
    return fmt::format("{} and {} cannot go together", first, text.substr(text.rfind(' ') + 1));
  if (dynamic_cast<const CLI::ConversionError*>(&e) != nullptr) return no_number(text);
  if (dynamic_cast<const CLI::ValidationError*>(&e) != nullptr) return no_member(text);
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&e) == nullptr) return text;
  if (text.ends_with("missing")) return first + " needs a value";
  return first.starts_with('-') ? first + " may be given once only" : first + ": too many values";
}

}  // namespace

UsageError usage_error(const CLI::App& app, const CLI::ParseError& e) {
  const Chosen c = chosen_command(app);
  std::vector<std::string> stray = app.remaining(true);
  for (std::string& word : stray) word = unguarded(word);
  if (!stray.empty()) return stray_word(c, stray);
  if (!commands_below(*c.command).empty())
    return {"a command is missing", c.call + " --help lists them"};
  return {unguarded(message(e)), c.call + " --help shows how"};
}

void refuse_empty_options(const CLI::App& app) {
  for (const CLI::Option* o : app.get_options()) {
    const auto& typed = o->results();
    if (o->get_positional() || o->check_name("--note") ||
        std::find(typed.begin(), typed.end(), "") == typed.end())
      continue;
    throw UsageError{o->get_name() + " is empty", "give it a value, or leave it out"};
  }
  for (const CLI::App* command : app.get_subcommands()) refuse_empty_options(*command);
}

void refuse_together(bool first_given, const std::string& first, bool second_given,
                     const std::string& second, const std::string& hint) {
  if (first_given && second_given)
    throw UsageError{fmt::format("{} and {} cannot go together", first, second), hint};
}

void refuse_level_alone(const std::string& limit, const std::string& level) {
  if (!level.empty() && limit.empty())
    throw UsageError{"--level without --limit", "name a limit, or leave --level out"};
}

}  // namespace areo::cli
