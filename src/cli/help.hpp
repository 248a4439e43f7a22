// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The text of --help, without the marks of the library that prints it.
#include <memory>

namespace CLI {  // NOLINT(readability-identifier-naming): the library's name
class FormatterBase;
}

namespace areo::cli {

[[nodiscard]] std::shared_ptr<CLI::FormatterBase> help_formatter();

}  // namespace areo::cli
