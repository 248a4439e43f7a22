// SPDX-License-Identifier: GPL-3.0-or-later
#include "help.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "areo/text/lines.hpp"
#include "screen.hpp"

namespace areo::cli {
namespace {

class HelpFormatter : public CLI::Formatter {
 public:
  HelpFormatter() { label("Positionals", "Values"); }

  // Values are named by what they are: "[ORIGINAL PRESENT]".
  std::string make_option_usage(const CLI::Option* o) const override {
    const std::string type = type_of(*o);
    const std::string name = type.empty() ? o->get_name(true) : type;
    return o->get_required() ? name : "[" + name + "]";
  }

  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode mode) const override {
    std::istringstream all{CLI::Formatter::make_help(app, std::move(name), mode)};
    std::string out;
    for (std::string text; std::getline(all, text);)
      for (const std::string& part : text::fitted(text, screen_columns())) out += part + "\n";
    return out;
  }

  std::string make_option_opts(const CLI::Option* o) const override {
    std::string out;
    if (const std::string type = type_of(*o); !type.empty()) out += " " + type;
    if (o->get_required()) out += " (needed)";
    if (!o->get_needs().empty()) out += " (with " + names(o->get_needs()) + ")";
    if (!o->get_excludes().empty()) out += " (not with " + names(o->get_excludes()) + ")";
    return out;
  }

 private:
  // "TEXT" says nothing about a value, and "TEXT:{sugar,salt}" says it behind a mark.
  static std::string type_of(const CLI::Option& o) {
    const std::string type = o.get_type_name();
    if (type == "TEXT" && o.get_positional()) return {};
    return type.starts_with("TEXT:") ? type.substr(5) : type;
  }
  static std::string names(const std::set<CLI::Option*>& options) {
    std::vector<std::string> all;
    all.reserve(options.size());
    for (const CLI::Option* o : options) all.push_back(o->get_name());
    return fmt::format("{}", fmt::join(all, ", "));
  }
};

}  // namespace

std::shared_ptr<CLI::FormatterBase> help_formatter() { return std::make_shared<HelpFormatter>(); }

}  // namespace areo::cli
