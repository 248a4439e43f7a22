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
  if (near == word) return "options go before --; whatever follows it is taken as a value";
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

// The options that the call may hold, in the order in which the library looks at them.
std::vector<const CLI::Option*> options_of_call(const CLI::App& app) {
  std::vector<const CLI::Option*> all;
  for (const CLI::App* a = &app;; a = a->get_subcommands().front()) {
    for (const CLI::Option* o : a->get_options()) all.push_back(o);
    if (a->get_subcommands().empty()) return all;
  }
}

std::string excluding(const std::vector<const CLI::Option*>& options) {
  for (const CLI::Option* o : options)
    for (const CLI::Option* other : o->get_excludes())
      if (o->count() > 0 && other->count() > 0)
        return fmt::format("{} and {} cannot go together", o->get_name(), other->get_name());
  return "";
}

// Only the last word of a call can be an option that waits for its value.
std::string too_many_or_few(const std::vector<const CLI::Option*>& options,
                            const std::string& last_word) {
  for (const CLI::Option* o : options)
    if (o->get_multi_option_policy() == CLI::MultiOptionPolicy::Throw &&
        static_cast<int>(o->results().size()) > std::max(1, o->get_items_expected_max()))
      return o->get_name() +
             (o->get_positional() ? ": too many values" : " may be given only once");
  for (const CLI::Option* o : options)
    if (o->check_name(last_word)) return o->get_name() + " needs a value";
  return "";
}

std::string flag_with_value(const std::vector<const CLI::Option*>& options) {
  for (const CLI::Option* o : options)
    if (o->get_items_expected_max() == 0 && o->count() > 0 && o->results().back() != "true")
      return o->get_name() + " takes no value";
  return "";
}

// From what was typed, in the words of a person; what our own checks refuse they say themselves.
std::string message(const CLI::App& app, const CLI::ParseError& e, const std::string& last_word) {
  std::string text;
  if (dynamic_cast<const CLI::ExcludesError*>(&e) != nullptr)
    text = excluding(options_of_call(app));
  else if (dynamic_cast<const CLI::ArgumentMismatch*>(&e) != nullptr)
    text = too_many_or_few(options_of_call(app), last_word);
  else if (dynamic_cast<const CLI::ConversionError*>(&e) != nullptr)
    text = flag_with_value(options_of_call(app));
  return text.empty() ? e.what() : text;
}

}  // namespace

UsageError usage_error(const CLI::App& app, const CLI::ParseError& e,
                       const std::string& last_word) {
  const Chosen c = chosen_command(app);
  std::vector<std::string> stray = app.remaining(true);
  for (std::string& word : stray) word = unguarded(word);
  if (!stray.empty()) return stray_word(c, stray);
  if (!commands_below(*c.command).empty())
    return {"a command is missing", c.call + " --help lists them"};
  return {unguarded(message(app, e, last_word)), c.call + " --help shows how"};
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
