// SPDX-License-Identifier: GPL-3.0-or-later
#include "command_line.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <string_view>
#include <utility>

namespace areo::cli {
namespace {

// In front of a word that the library would take apart, "[a,b]".
constexpr char guard = '\x01';

std::string guarded_word(std::string_view word) {
  const bool odd = !word.empty() && (word.front() == '[' || word.front() == guard);
  return (odd ? std::string{guard} : std::string{}) + std::string{word};
}

// A value that is typed comes as it was typed.
CLI::Option* as_typed(CLI::Option* option) {
  const auto back = [](const std::string& word) {
    return word.starts_with(guard) ? word.substr(1) : word;
  };
  return option->transform(back, "");
}

// A number of things, in digits alone; the library would take "010" for eight.
CLI::Option* whole(CLI::Option* option) {
  const auto in_digits = [option](const std::string& word) {
    std::int64_t n = 0;
    const auto [end, failure] = std::from_chars(word.data(), word.data() + word.size(), n);
    if (failure != std::errc{} || end != word.data() + word.size())
      throw CLI::ConversionError{
          fmt::format("{} takes a whole number, not '{}'", option->get_name(), word)};
    return std::to_string(n);
  };
  return option->transform(in_digits, "");
}

}  // namespace

std::vector<std::string> guarded(int argc, const char* const* argv) {
  std::vector<std::string> words;
  bool options = true;  // until "--"
  for (int i = 0; i < argc; ++i) {
    const std::string_view word = argv[i];
    options = options && word != "--";
    const auto equals = word.find('=');
    const bool with_value = options && word.starts_with("--") && equals != std::string_view::npos;
    const std::string value = with_value ? guarded_word(word.substr(equals + 1)) : "";
    if (with_value && (value.empty() || value.front() == guard)) {
      words.emplace_back(word.substr(0, equals));
      words.push_back(value);
    } else {
      words.push_back(guarded_word(word));
    }
  }
  return words;
}

std::string unguarded(std::string text) {
  std::erase(text, guard);
  return text;
}

const Option& Option::type_name(const std::string& name) const {
  option_->type_name(name);
  return *this;
}

const Option& Option::takes(entry::Quantity of, const std::string& name) const {
  option_->transform(
      [of, usual = usual_](const std::string& typed) { return usual->read(typed, of); }, "");
  return type_name(name);
}

const Option& Option::required() const {
  option_->required();
  return *this;
}

const Option& Option::expected(int least, int most) const {
  option_->expected(least, most);
  return *this;
}

const Option& Option::excludes(const Option& other) const {
  option_->excludes(other.option_);
  return *this;
}

const Option& Option::hidden() const {
  option_->group("");
  return *this;
}

const Option& Option::needs(const Option& other) const {
  option_->needs(other.option_);
  return *this;
}

const Option& Option::one_of(const std::vector<std::string>& words) const {
  const std::string list = fmt::format("{}", fmt::join(words, ", "));
  option_->check(
      [words, list](const std::string& word) {
        const bool known = std::find(words.begin(), words.end(), word) != words.end();
        return known ? "" : fmt::format("{} is not one of {}", word, list);
      },
      fmt::format("{{{}}}", fmt::join(words, ",")));
  return *this;
}

const Option& Option::once_each() const {
  option_->allow_extra_args(false);
  return *this;
}

const Option& Option::delimiter(char between) const {
  option_->delimiter(between);
  return *this;
}

Command Command::add_subcommand(const std::string& name, const std::string& help) const {
  return {app_->add_subcommand(name, help), usual_};
}

Option Command::add_option(const std::string& name, std::string& out,
                           const std::string& help) const {
  return {as_typed(app_->add_option(name, out, help)), usual_};
}

Option Command::add_option(const std::string& name, std::vector<std::string>& out,
                           const std::string& help) const {
  return {as_typed(app_->add_option(name, out, help)), usual_};
}

Option Command::add_option(const std::string& name, std::int64_t& out,
                           const std::string& help) const {
  return {whole(app_->add_option(name, out, help)), usual_};
}

Option Command::add_option(const std::string& name, std::vector<std::int64_t>& out,
                           const std::string& help) const {
  return {whole(app_->add_option(name, out, help)), usual_};
}

Option Command::add_flag(const std::string& name, bool& out, const std::string& help) const {
  return {app_->add_flag(name, out, help), usual_};
}

void Command::require_subcommand(int count) const { app_->require_subcommand(count); }

void Command::callback(std::function<void()> act) const { app_->callback(std::move(act)); }

void Command::footer(const std::string& text) const { app_->footer(text); }

}  // namespace areo::cli
