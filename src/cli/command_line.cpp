#include "command_line.hpp"

#include <CLI/CLI.hpp>
#include <utility>

namespace areo::cli {

const Option& Option::type_name(const std::string& name) const {
  option_->type_name(name);
  return *this;
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
  option_->check(CLI::IsMember(words));
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
  return Command{app_->add_subcommand(name, help)};
}

Option Command::add_option(const std::string& name, std::string& out,
                           const std::string& help) const {
  return Option{app_->add_option(name, out, help)};
}

Option Command::add_option(const std::string& name, std::vector<std::string>& out,
                           const std::string& help) const {
  return Option{app_->add_option(name, out, help)};
}

Option Command::add_option(const std::string& name, std::int64_t& out,
                           const std::string& help) const {
  return Option{app_->add_option(name, out, help)};
}

Option Command::add_option(const std::string& name, std::vector<std::int64_t>& out,
                           const std::string& help) const {
  return Option{app_->add_option(name, out, help)};
}

Option Command::add_flag(const std::string& name, bool& out, const std::string& help) const {
  return Option{app_->add_flag(name, out, help)};
}

void Command::require_subcommand(int count) const { app_->require_subcommand(count); }

void Command::callback(std::function<void()> act) const { app_->callback(std::move(act)); }

void Command::footer(const std::string& text) const { app_->footer(text); }

}  // namespace areo::cli
