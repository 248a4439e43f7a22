// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a command says of itself and takes, before the library that takes the call apart: its header
// costs ten times the compilation of one of ours, so few files see it.
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "areo/entry/usual_units.hpp"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's name
class App;
class Option;
}  // namespace CLI

namespace areo::cli {

/// The words of a call as the option library takes them for nothing else: an empty value stays one
/// ("--note="), and brackets stay brackets. Options give them back as they were typed.
[[nodiscard]] std::vector<std::string> guarded(int argc, const char* const* argv);
/// A word, or a sentence with some, as it was typed.
[[nodiscard]] std::string unguarded(std::string text);

/// A value or an option of a command; a handle, copied freely.
class Option {
 public:
  Option(CLI::Option* option, entry::UsualUnits* usual) : option_{option}, usual_{usual} {}
  /// What the help calls its value: "NAME", "21C".
  const Option& type_name(const std::string& name) const;
  /// What is typed may lack its unit, or its order: the settings of the notebook say it.
  const Option& takes(entry::Quantity of, const std::string& name) const;
  const Option& temperature() const { return takes(entry::Quantity::temperature, "TEMP"); }
  using Name = const std::string&;
  const Option& mass(Name name) const { return takes(entry::Quantity::mass, name); }
  const Option& volume(Name name) const { return takes(entry::Quantity::volume, name); }
  const Option& pressure(Name name) const { return takes(entry::Quantity::pressure, name); }
  const Option& date() const { return takes(entry::Quantity::date, "DATE"); }
  const Option& required() const;
  /// How many values it takes.
  const Option& expected(int least, int most) const;
  /// Not together with that one.
  const Option& excludes(const Option& other) const;
  /// Only together with that one.
  const Option& needs(const Option& other) const;
  /// Only one of these words.
  const Option& one_of(const std::vector<std::string>& words) const;
  /// Understood, but not in the help.
  const Option& hidden() const;
  /// Any number of times, each with one value.
  const Option& once_each() const;
  /// Several values may stand in one word, between these.
  const Option& delimiter(char between) const;

 private:
  CLI::Option* option_;
  entry::UsualUnits* usual_;
};

/// A command, or the program itself; a handle, copied freely.
class Command {
 public:
  Command(CLI::App* app, entry::UsualUnits* usual) : app_{app}, usual_{usual} {}
  [[nodiscard]] CLI::App* app() const { return app_; }
  // What adds may stand for itself: not everybody goes on with it.
  /// @param help  one line
  Command add_subcommand(const std::string& name, const std::string& help) const;
  /// "--name" is an option, "name" a value. What was typed goes to `out`.
  Option add_option(const std::string& name, std::string& out, const std::string& help) const;
  Option add_option(const std::string& name, std::vector<std::string>& out,
                    const std::string& help) const;
  Option add_option(const std::string& name, std::int64_t& out, const std::string& help) const;
  Option add_option(const std::string& name, std::vector<std::int64_t>& out,
                    const std::string& help) const;
  Option add_flag(const std::string& name, bool& out, const std::string& help) const;
  /// Exactly so many commands below it have to be chosen.
  void require_subcommand(int count) const;
  /// Called when the user chose it.
  void callback(std::function<void()> act) const;
  /// Below the help.
  void footer(const std::string& text) const;

 private:
  CLI::App* app_;
  entry::UsualUnits* usual_;
};

}  // namespace areo::cli
